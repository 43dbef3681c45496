import { CABINET_CAUTIONS, type Finding } from '../../findings/index.js';
import { addAll, type Minor } from '../../model/index.js';
import { type CauseRule, distinct, tellWorst } from '../cause-rule.js';
import { isStillSo } from '../is-still-so.js';
import type { MachineDay } from '../machine-day.js';
import type { PastStretch } from '../sales-history.js';
import { type Stake, stakeNotKnown, stakeOf } from '../stake.js';
import { usualPerDay } from '../usual-day.js';

const EARLIER = 'Earlier in the day, no longer in its last capture: ';

/** What went through a device, by the segment it reports itself with. */
const FLOW_OF_SEGMENT: Readonly<Record<string, (stretch: PastStretch) => Minor | null>> = {
  CA1: ({ cashSales }) => cashSales,
  BA1: ({ bills }) => bills,
  DA1: ({ cardSales }) => cardSales,
  DB1: ({ cardSales }) => cardSales,
  CB1: ({ value }) => value,
};

function tellWhen(findings: readonly Finding[], day: MachineDay): string {
  return isStillSo(findings, day) ? tellWorst(findings) : EARLIER + tellWorst(findings);
}

const OVER: Stake = stakeNotKnown('Not known: it is over, and nothing says what it cost.');

/** Devices that do not report. */
export const deviceSilentRule: CauseRule = {
  cause: 'device-silent',
  todo: 'Have it looked at: whether the device has power and is connected.',
  cautions: CABINET_CAUTIONS,
  tell: tellWhen,
  weigh(findings, day) {
    if (!isStillSo(findings, day)) return OVER;
    const flows = distinct(findings, ({ segment }) => segment).map(
      (segment) => FLOW_OF_SEGMENT[segment] ?? (() => null),
    );
    const amounts = flows.map((flow) => usualPerDay(day, flow)).filter((amount) => amount !== null);
    if (amounts.length === 0) return stakeNotKnown('Not known: nothing is known of what usually goes through it.');
    return stakeOf(null, 'about', 'What usually goes through it in a day, if it takes no money.', addAll(amounts));
  },
};

/** Faults that a machine reports as active. */
export const faultActiveRule: CauseRule = {
  cause: 'fault-active',
  todo: 'Have the fault looked at.',
  cautions: [...CABINET_CAUTIONS, 'food'],
  tell: tellWhen,
  weigh(findings, day) {
    if (!isStillSo(findings, day)) return OVER;
    const amount = usualPerDay(day, ({ value }) => value);
    if (amount === null) return stakeNotKnown('Not known: less than a day of its sales is known.');
    return stakeOf(null, 'about', 'What it usually sells in a day, if the fault stops it.', amount);
  },
};

/** Tubes without change. */
export const changeShortRule: CauseRule = {
  cause: 'change-short',
  todo: 'Have the tubes filled, and the fill entered in the machine.',
  cautions: CABINET_CAUTIONS,
  tell: tellWhen,
  weigh: () => stakeNotKnown('Not known: what customers would have bought who had no coins to fit.'),
};

/** Clocks that are off or were changed. */
export const clockWrongRule: CauseRule = {
  cause: 'clock-wrong',
  todo: "Have the machine's clock set.",
  cautions: CABINET_CAUTIONS,
  tell: tellWhen,
  weigh: () => stakeNotKnown('No money by itself, but visits, prices and sold-outs are placed by it.'),
};
