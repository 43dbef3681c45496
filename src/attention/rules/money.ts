import { CABINET_CAUTIONS, COUNT_CAUTIONS } from '../../findings/index.js';
import type { Step } from '../../interval/index.js';
import { addAll, largestOf, type Minor } from '../../model/index.js';
import { type CauseRule, tellWorst } from '../cause-rule.js';
import type { MachineDay } from '../machine-day.js';
import { type Stake, stakeNotKnown, stakeOf } from '../stake.js';

/** The day's intervals; on a day without any, those that its visits were settled from. */
function intervalsOf({ intervals, visits }: MachineDay): readonly Step[] {
  if (intervals.length > 0) return intervals;
  return visits.map(({ interval }) => interval).filter((interval) => interval !== null);
}

/** The sum of amounts whatever their sign; one that is not known adds nothing. */
function sumAbsolute(amounts: readonly (Minor | null)[]): Minor {
  return amounts.reduce<Minor>((sum, amount) => sum + Math.abs(amount ?? 0), 0);
}

/** Money that no known price, sale or counter explains. */
export const moneyUnexplainedRule: CauseRule = {
  cause: 'money-unexplained',
  todo: 'Look for a price list or discount that is not known, or a counter that missed something; compare at the next read.',
  cautions: COUNT_CAUTIONS,
  tell: tellWorst,
  weigh(findings, day) {
    const intervals = intervalsOf(day);
    const has = (code: string): boolean => findings.some((finding) => finding.code === code);
    const columns = sumAbsolute(intervals.flatMap((one) => one.columns.map(({ unexplained }) => unexplained)));
    const cash = sumAbsolute(intervals.map((one) => one.cash.customerDifference));
    const parts = [has('price-mismatch') ? columns : 0, has('cash-sales-difference') ? cash : 0];
    const amount = largestOf(parts);
    // The two may be the same money, and other findings give no amount of their own.
    const isOne =
      findings.every(({ code }) => code === 'price-mismatch') ||
      findings.every(({ code }) => code === 'cash-sales-difference');
    if (amount === 0) return stakeNotKnown('Not known: no figure says how much it is.');
    return stakeOf(
      amount,
      isOne ? 'exact' : 'at-least',
      'What prices do not explain, or what sales and change do not; the larger of the two.',
    );
  },
};

/** Tubes that hold more or less than they should. */
export const tubeDifferenceRule: CauseRule = {
  cause: 'tube-difference',
  todo: 'Have the coins in the tubes counted, and fills entered in the machine.',
  cautions: [...CABINET_CAUTIONS, 'overShort'],
  tell: tellWorst,
  weigh(_, day): Stake {
    const differences = intervalsOf(day).map(({ cash }) => cash.tubeDifference);
    const net = addAll(differences.map((difference) => difference ?? 0));
    if (differences.every((difference) => difference === null) || net === null)
      return stakeNotKnown('Not known: no interval of the day tells it.');
    const isWhole = differences.every((difference) => difference !== null);
    return stakeOf(
      Math.abs(net),
      isWhole ? 'exact' : 'about',
      'What the tubes hold less what they should, over the day.',
    );
  },
};
