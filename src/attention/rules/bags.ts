import { COUNT_CAUTIONS } from '../../findings/index.js';
import { addAll, type Minor, subtract } from '../../model/index.js';
import type { Visit } from '../../settlement/index.js';
import { type CauseRule, tellWorst } from '../cause-rule.js';
import { causeOfVisit } from '../causes.js';
import { roundEstimate } from '../estimate.js';
import type { MachineDay } from '../machine-day.js';
import { type Stake, type StakeBound, stakeNotKnown, stakeOf } from '../stake.js';

/** An amount and how it is meant. */
interface Part {
  readonly amount: Minor | null;
  readonly bound: StakeBound;
}

const visitsOf = ({ visits }: MachineDay, cause: ReturnType<typeof causeOfVisit>): readonly Visit[] =>
  visits.filter((visit) => causeOfVisit(visit) === cause);

/** Bags with more or less in them than expected, or with coins and bills off in opposite ways. */
export const bagDiffersRule: CauseRule = {
  cause: 'bag-differs',
  todo: 'Have the bag counted again, with a second person.',
  cautions: COUNT_CAUTIONS,
  tell: tellWorst,
  weigh: (_, day) => joinParts(visitsOf(day, 'bag-differs').map(differenceOf), 'Counted less expected, over or short.'),
};

/** Of a visit that is settled, so that all its differences are known. */
function differenceOf({ state, overShort: { coins, bills, total } }: Visit): Part {
  if (state !== 'agreed') return { amount: Math.abs(total!), bound: 'exact' };
  // Coins and bills that cancel: no more than the larger of the two can be amiss.
  return { amount: Math.max(Math.abs(coins!), Math.abs(bills!)), bound: 'at-most' };
}

/** Closed rounds that came out otherwise later; each is weighed by itself, see `lookAtAdjusted`. */
export const roundAdjustedRule: CauseRule = {
  cause: 'round-adjusted',
  todo: 'Look at the round as it stands, and count again with a second person where a bag is still there.',
  cautions: COUNT_CAUTIONS,
  tell: tellWorst,
  weigh: () => stakeNotKnown('Not known: the adjustment in the book says how much it is.'),
};

/** Machines and drivers whose bags always differ in one direction; each is weighed by itself, see `lookAtOneSided`. */
export const oneSidedRule: CauseRule = {
  cause: 'one-sided',
  todo:
    'Look for a cause that always works one way: a price off plan, tubes topped up by hand, a coin counted as another, the count. A ' +
    'difference is no proof against anybody.',
  cautions: COUNT_CAUTIONS,
  tell: tellWorst,
  weigh: () => stakeNotKnown('Not known: the finding says what the bags come to together.'),
};

/** Service reads of which no bag was counted. */
export const bagUncountedRule: CauseRule = {
  cause: 'bag-uncounted',
  todo: 'Look for the bag and its count before the round is closed.',
  cautions: COUNT_CAUTIONS,
  tell: tellWorst,
  weigh: (_, day) =>
    joinParts(visitsOf(day, 'bag-uncounted').flatMap(unvouchedOf), 'What should be in the bag, by the counters.'),
};

/** Bags that cannot be settled, or were settled with a doubt. */
export const bagOpenRule: CauseRule = {
  cause: 'bag-open',
  todo: 'Clear up what the findings name, then settle again.',
  cautions: COUNT_CAUTIONS,
  tell: tellWorst,
  weigh(_, day) {
    const how =
      'Of a bag that is not settled: what was counted beyond what captures vouch for, all of it where none does, and what should be there where nothing was counted. Of one that agrees: nothing.';
    return joinParts(visitsOf(day, 'bag-open').flatMap(unvouchedOf), how);
  },
};

/** What nothing vouches for in one bag, coins and bills apart. */
function unvouchedOf({ state, expected, counted, expectedIsFloor }: Visit): readonly Part[] {
  if (state === 'agreed') return [{ amount: 0, bound: 'exact' }];
  return (['coins', 'bills'] as const).map((kind) => unvouchedKind(expected[kind], counted[kind], expectedIsFloor));
}

function unvouchedKind(expected: Minor | null, counted: Minor | null, isFloor: boolean): Part {
  if (counted === null) return { amount: expected, bound: isFloor ? 'at-least' : 'exact' };
  const beyond = subtract(counted, expected);
  if (beyond === null) return { amount: counted, bound: 'at-most' };
  // Less than even the floor: at least so much is missing. More: some of that may have come after the last capture.
  return { amount: Math.abs(beyond), bound: !isFloor ? 'exact' : beyond < 0 ? 'at-least' : 'at-most' };
}

/** The sum of the parts that are known. Bounds of different kinds make it an estimate. */
function joinParts(parts: readonly Part[], how: string): Stake {
  const known = parts.filter(({ amount }) => amount !== null);
  if (known.length === 0) return stakeNotKnown('Not known: neither what is expected nor what was counted is.');
  const amount = addAll(known.map((part) => part.amount));
  const bounds = new Set(known.filter((part) => part.amount !== 0).map(({ bound }) => bound));
  if (known.length < parts.length) bounds.add('at-least');
  bounds.delete('exact');
  const [bound = 'exact', ...others] = bounds;
  return others.length > 0 ? stakeOf(roundEstimate(amount), 'about', how) : stakeOf(amount, bound, how);
}
