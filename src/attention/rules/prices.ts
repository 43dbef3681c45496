import { listSome } from '../../checks/wording.js';
import { CABINET_CAUTIONS, printable } from '../../findings/index.js';
import { add, addAll, type Minor, multiply } from '../../model/index.js';
import { type CauseRule, distinct, tellWorst } from '../cause-rule.js';
import { DAY_MINUTES, roundEstimate, scaleAmount } from '../estimate.js';
import { type MachineDay, stretchesInMoney } from '../machine-day.js';
import { ofColumn, type PastColumn, usualRate } from '../sales-history.js';
import { stakeNotKnown, stakeOf } from '../stake.js';

/** Columns priced off plan: what that has cost so far, and what a further day of it costs. */
export const priceOffPlanRule: CauseRule = {
  cause: 'price-off-plan',
  todo: 'Set the price and check the label, or correct the plan.',
  cautions: CABINET_CAUTIONS,
  tell(findings) {
    const columns = distinct(findings, ({ column }) => column);
    // The interval's finding comes after the capture's and says what it cost as well.
    const last = findings.at(-1)!.message;
    if (columns.length <= 1) return last;
    const names = listSome(columns.map((column) => printable(column, 20)));
    return `${columns.length} columns are off plan: ${names}. ${tellWorst(findings)}`;
  },
  weigh(findings, day) {
    const columns = distinct(findings, ({ column }) => column);
    const losses = columns.map((column) => lossSoFar(column, day));
    const known = losses.map(({ sum }) => sum).filter((sum) => sum !== null);
    const amount = known.length === 0 ? null : addAll(known);
    const perDays = columns.map((column) => lossPerDay(column, day)).filter((amount) => amount !== null);
    const perDay = perDays.length === 0 ? null : roundEstimate(addAll(perDays));
    const how =
      'So far: what was charged against the plan, since the price is off, too much as well as too little. A day: the difference in price times what the column usually sells.';
    if (amount === null && perDay === null)
      return stakeNotKnown('Not known: nothing is known of what these columns sell.');
    const isWhole = losses.every(({ sum, isWhole }) => sum !== null && isWhole);
    return stakeOf(amount, isWhole ? 'exact' : 'at-least', how, perDay);
  },
};

/** The loss over the last stretches, without a break, in which the column was off plan; null where nothing of it is known. */
function lossSoFar(column: string, day: MachineDay): { readonly sum: Minor | null; readonly isWhole: boolean } {
  let sum: Minor | null = null;
  let isWhole = true;
  for (const stretch of stretchesInMoney(day).toReversed()) {
    const found = stretch.columns.find((one) => one.column === column);
    if (found === undefined || isOnPlan(found)) break;
    if (found.loss === null) isWhole = false;
    else sum = add(sum ?? 0, Math.abs(found.loss));
  }
  return { sum, isWhole };
}

/** On plan, or without one. */
const isOnPlan = ({ offBy, loss }: PastColumn): boolean => (offBy ?? 0) === 0 && (loss ?? 0) === 0;

/** What a further day costs at the price that the machine has now. */
function lossPerDay(column: string, day: MachineDay): Minor | null {
  const stretches = stretchesInMoney(day);
  const offBy = stretches.at(-1)?.columns.find((one) => one.column === column)?.offBy ?? null;
  if (offBy === null) return null;
  const usual = usualRate(
    stretches,
    ofColumn(column, ({ sold }) => sold),
  );
  return usual === null ? null : scaleAmount(multiply(usual.amount, Math.abs(offBy)), DAY_MINUTES, usual.minutes);
}
