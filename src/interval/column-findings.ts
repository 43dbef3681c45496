import { adviseAtCabinet, type Finding, type FindingDetail, makeFinding, printable } from '../findings/index.js';
import { formatMinor, type Minor } from '../model/index.js';
import type { ColumnSales } from './column-sales.js';
import { baseDetail } from './interval-finding.js';
import type { ReadPair } from './read-pair.js';

/** Findings about columns: come and gone, priced off plan, price changed, money that fits no price. */
export function judgeColumns(pair: ReadPair, columns: readonly ColumnSales[]): Finding[] {
  return columns.flatMap((column) => {
    if (!column.inTo) return [sayGone(pair, column)];
    return [
      ...(column.inFrom ? [] : [sayAppeared(pair, column)]),
      ...(pair.isSameMoney ? judgePrices(pair, column) : []),
      ...(pair.isSameMoney ? judgeValue(pair, column) : []),
    ];
  });
}

const nameOf = ({ column }: ColumnSales): string => `Column ${printable(column, 20)}`;

function sayGone(pair: ReadPair, column: ColumnSales): Finding {
  const message = `${nameOf(column)} is only in the earlier read; what it sold since then is not known.`;
  return makeFinding('column-gone', message, baseDetail(pair, 'PA101', column.column));
}

function sayAppeared(pair: ReadPair, column: ColumnSales): Finding {
  const { from } = column.soldDifference;
  const taken =
    column.sold === null
      ? 'it counted before that, so what it sold in between is not known'
      : column.basis === 'interval' && from === null
        ? 'its sales are those since the last reset'
        : 'it is taken to have started at 0';
  const message = `${nameOf(column)} is only in the later read; ${taken}.`;
  return makeFinding('column-appeared', message, baseDetail(pair, 'PA101', column.column));
}

function judgePrices(pair: ReadPair, column: ColumnSales): Finding[] {
  const { priceFrom, priceTo, pricePlan, cardPriceTo, cardPricePlan, loss } = column;
  const findings: Finding[] = [];
  const detail = (): FindingDetail => baseDetail(pair, 'PA102', column.column);
  if (priceFrom !== null && priceTo !== null && priceFrom !== priceTo) {
    const message = `${nameOf(column)}: the price changed from ${pair.money(priceFrom)} to ${pair.money(priceTo)}.`;
    findings.push(makeFinding('price-changed', message, detail()));
  }
  const isLabelOff = pricePlan !== null && priceTo !== null && priceTo !== pricePlan;
  const isCardOff = cardPricePlan !== null && cardPriceTo !== null && cardPriceTo !== cardPricePlan;
  if (!isLabelOff && !isCardOff && (loss === null || loss === 0)) return findings;
  const cost = sayCost(pair, column);
  if (isLabelOff) findings.push(sayOffPlan(pair, column, 'is priced', priceTo, pricePlan, cost));
  if (isCardOff) {
    const once = isLabelOff ? '' : cost;
    findings.push(sayOffPlan(pair, column, 'is priced for cards', cardPriceTo, cardPricePlan, once));
  }
  if (!isLabelOff && !isCardOff) {
    const message = `${nameOf(column)} was sold off plan in this interval, though it is priced as planned now.${cost}`;
    findings.push(makeFinding('price-off-plan', message, detail()));
  }
  return findings;
}

function sayOffPlan(
  pair: ReadPair,
  column: ColumnSales,
  how: string,
  price: Minor,
  plan: Minor,
  cost: string,
): Finding {
  const message = `${nameOf(column)} ${how} ${pair.money(price)}, the plan says ${pair.money(plan)}.${cost}`;
  const label = how === 'is priced' ? ' and check the label' : '';
  const advice = adviseAtCabinet(`Set the price to ${pair.money(plan)}${label}, or correct the plan.`);
  const { decimals } = pair;
  const write = (amount: Minor): string => (decimals === null ? String(amount) : formatMinor(amount, decimals));
  const detail = baseDetail(pair, 'PA102', column.column);
  return makeFinding('price-off-plan', message, {
    ...detail,
    ...advice,
    expected: write(plan),
    received: write(price),
  });
}

/** What it cost, where that is known. A plan that changed in between says less: the price may have been right at first. */
function sayCost(pair: ReadPair, { loss, pricePlan, pricePlanFrom, priceFrom, priceTo }: ColumnSales): string {
  if (loss === null || loss === 0) return '';
  const hasPlanChanged = priceFrom === priceTo && pricePlanFrom !== null && pricePlanFrom !== pricePlan;
  const upTo = hasPlanChanged ? 'up to ' : '';
  const why = hasPlanChanged ? '; the plan changed in between' : '';
  return loss > 0
    ? ` This cost ${upTo}${pair.money(loss)}${why}.`
    : ` Customers paid ${upTo}${pair.money(-loss)} more than planned${why}.`;
}

function judgeValue(pair: ReadPair, column: ColumnSales): Finding[] {
  const { sold, value, discounts, unexplained, priceFrom, priceTo } = column;
  if (unexplained === null || unexplained === 0 || sold === null || value === null) return [];
  const prices = [...new Set([priceFrom, priceTo])].filter((price) => price !== null).map((price) => pair.money(price));
  const gross = discounts === null || discounts === 0 ? '' : ` and ${pair.money(discounts)} of discounts`;
  const vends = sold === 1 ? '1 vend' : `${sold} vends`;
  const most = `${pair.money(Math.abs(unexplained))} ${unexplained > 0 ? 'more' : 'less'}`;
  const message = `${nameOf(column)}: ${vends} brought ${pair.money(value)}${gross}, ${most} than known prices (${prices.join(', ')}) explain.`;
  return [makeFinding('price-mismatch', message, baseDetail(pair, 'PA202', column.column))];
}
