import { type Finding, makeFinding, printable } from '../findings/index.js';
import { describeMoney, type Minor } from '../model/index.js';
import type { ColumnSales } from './column-sales.js';
import { baseDetail } from './interval-finding.js';
import type { ReadPair } from './read-pair.js';

/** Findings about columns: come and gone, priced off plan, price changed, money that fits no price. */
export function judgeColumns(pair: ReadPair, columns: readonly ColumnSales[]): Finding[] {
  const judged = new ColumnJudge(pair);
  for (const column of columns) judged.judge(column);
  return judged.findings;
}

class ColumnJudge {
  readonly findings: Finding[] = [];
  readonly #pair: ReadPair;

  constructor(pair: ReadPair) {
    this.#pair = pair;
  }

  judge(column: ColumnSales): void {
    const name = `Column ${printable(column.column, 20)}`;
    const detail = baseDetail(this.#pair, 'PA101', column.column);
    if (!column.inFrom) {
      this.findings.push(
        makeFinding('column-appeared', `${name} is only in the later read; it is taken to have started at 0.`, detail),
      );
    }
    if (!column.inTo) {
      this.findings.push(
        makeFinding('column-gone', `${name} is only in the earlier read; what it sold since is not known.`, detail),
      );
      return;
    }
    this.#judgePrices(column, name);
    this.#judgeValue(column, name);
  }

  #judgePrices(column: ColumnSales, name: string): void {
    const { priceFrom, priceTo, pricePlan, loss } = column;
    const detail = baseDetail(this.#pair, 'PA102', column.column);
    if (priceFrom !== null && priceTo !== null && priceFrom !== priceTo) {
      const message = `${name}: the price changed from ${this.#money(priceFrom)} to ${this.#money(priceTo)}.`;
      this.findings.push(makeFinding('price-changed', message, detail));
    }
    const isOff = pricePlan !== null && priceTo !== null && priceTo !== pricePlan;
    if (!isOff && (loss === null || loss === 0)) return;
    const sold =
      loss === null
        ? ''
        : loss > 0
          ? ` This cost ${this.#money(loss)}.`
          : loss < 0
            ? ` Customers paid ${this.#money(-loss)} too much.`
            : '';
    const message = isOff
      ? `${name} is priced ${this.#money(priceTo)}, the plan says ${this.#money(pricePlan)}.${sold}`
      : `${name} sold off plan in this interval; the price now is ${priceTo === null ? 'not known' : this.#money(priceTo)}.${sold}`;
    const advice = isOff ? `Set the price to ${this.#money(pricePlan)} and check the label.` : undefined;
    this.findings.push(
      makeFinding('price-off-plan', message, { ...detail, ...(advice === undefined ? {} : { advice }) }),
    );
  }

  #judgeValue({ column, sold, value, unexplained, priceFrom, priceTo }: ColumnSales, name: string): void {
    if (unexplained === null || unexplained === 0 || sold === null || value === null) return;
    const prices = [...new Set([priceFrom, priceTo])]
      .filter((price) => price !== null)
      .map((price) => this.#money(price));
    const message = `${name}: ${sold} vends brought ${this.#money(value)}; at ${prices.join(' or ')} that leaves ${this.#money(unexplained)} unexplained.`;
    this.findings.push(makeFinding('price-mismatch', message, baseDetail(this.#pair, 'PA202', column)));
  }

  #money(amount: Minor): string {
    return describeMoney(amount, this.#pair.to.decimals, this.#pair.to.currency);
  }
}
