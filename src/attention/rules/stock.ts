import { listSome } from '../../checks/wording.js';
import { CABINET_CAUTIONS, printable } from '../../findings/index.js';
import { addAll, type Minor } from '../../model/index.js';
import { type CauseRule, distinct, tellWorst } from '../cause-rule.js';
import { roundEstimate } from '../estimate.js';
import { type MachineDay, stretchesInMoney } from '../machine-day.js';
import { beforeQuiet, ofColumn, overMinutes, type Rate, usualRate } from '../sales-history.js';
import { stakeNotKnown, stakeOf } from '../stake.js';
import { perDay } from '../usual-day.js';

/** Columns that are sold out: what they would have sold since, and what a further day of it costs. */
export const soldOutRule: CauseRule = {
  cause: 'sold-out',
  todo: 'Have the columns filled.',
  cautions: CABINET_CAUTIONS,
  tell(findings) {
    const columns = distinct(findings, ({ column }) => column).map((column) => printable(column, 20));
    if (columns.length === 1) return tellWorst(findings);
    return `${columns.length} columns are sold out: ${listSome(columns)}. First: ${findings[0]!.message}`;
  },
  weigh(findings, day) {
    const columns = distinct(findings, ({ column }) => column);
    const rates = columns.map((column) => ({ column, rate: usualOfColumn(column, day) }));
    const perDays = rates.map(({ rate }) => perDay(rate)).filter((amount) => amount !== null);
    if (perDays.length === 0) return stakeNotKnown('Not known: nothing is known of what these columns sell.');
    const lost = rates.map(({ column, rate }) => lostSince(column, rate, day)).filter((amount) => amount !== null);
    const amount = lost.length === 0 ? null : roundEstimate(addAll(lost));
    const how =
      'What the columns usually sold while they did: so far from the time the machine gives to its last read, and for a further day.';
    return stakeOf(amount, 'about', how, roundEstimate(addAll(perDays)));
  },
};

function usualOfColumn(column: string, day: MachineDay): Rate | null {
  const selling = beforeQuiet(
    stretchesInMoney(day),
    ofColumn(column, ({ sold }) => sold),
  );
  return usualRate(
    selling,
    ofColumn(column, ({ value }) => value),
  );
}

function lostSince(column: string, rate: Rate | null, { stock }: MachineDay): Minor | null {
  const minutes = stock?.columns.find((one) => one.column === column)?.soldOut?.minutes ?? null;
  return minutes === null ? null : overMinutes(rate, minutes);
}
