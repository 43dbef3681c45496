import { CABINET_CAUTIONS } from '../../findings/index.js';
import { type CauseRule, tellWorst } from '../cause-rule.js';
import { judgeQuiet } from '../judge-quiet.js';
import { stakeNotKnown, stakeOf } from '../stake.js';
import { usualBetween, usualPerDay } from '../usual-day.js';

/** Machines that used to sell and do not. */
export const salesStoppedRule: CauseRule = {
  cause: 'sales-stopped',
  todo: 'Have the machine looked at: power, coin mechanism, card reader, door, label "out of order".',
  cautions: CABINET_CAUTIONS,
  tell: tellWorst,
  weigh(_, day) {
    const quiet = judgeQuiet(day.stretches);
    const amount = quiet === null ? null : usualBetween(day, quiet.since, quiet.until);
    if (amount === null) return stakeNotKnown('Not known: less than a day of its sales is known.');
    const how = 'What it usually sold in such a time before, and in a further day.';
    return stakeOf(
      amount,
      'about',
      how,
      usualPerDay(day, ({ value }) => value),
    );
  },
};
