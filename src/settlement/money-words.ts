import { COUNT_CAUTIONS } from '../findings/index.js';
import type { Step } from '../interval/index.js';
import { add, type Minor } from '../model/index.js';
import type { OverShort } from './judge-over-short.js';
import type { CashByKind, ExpectedLine } from './settlement.js';
import type { VisitRead } from './visit-read.js';
import type { MoneyUnit, VisitTeller } from './visit-teller.js';

// What is said of the money of a visit: what was expected, and how the count stands to it.

const RECOUNT =
  'Count again with a second person before anyone is asked about it: a difference between two counts is no proof of wrongdoing.';

/**
 * Nothing to count from. The interval counters are an indication (domain rule), no more.
 *
 * @param earlier - how many usable captures there are before it, none of which is known to be of a collection
 */
export function sayNoOpening(teller: VisitTeller, { taken: { read, profile } }: VisitRead, earlier: number): void {
  const box = read.integer('CA302');
  const bills = read.integer('CA304');
  const shown = [
    ...(box === null ? [] : [`${teller.money(box)} to the cash box`]),
    ...(bills === null
      ? []
      : [profile?.bills === 'value' ? `bills of ${teller.money(bills)}` : `bills ${bills} (value or number)`]),
  ];
  const indication =
    shown.length === 0 ? '' : ` Since its last reset the machine shows ${shown.join(' and ')}: an indication only.`;
  const others =
    earlier === 0
      ? ''
      : ` No bag is on the sheet for ${earlier === 1 ? 'the one capture' : `the ${earlier} captures`} before it, and none is marked as a service read.`;
  teller.say('no-opening', `There is no earlier collection of this machine to count from.${others}${indication}`, {
    advice:
      earlier === 0
        ? 'From the next visit on there is one.'
        : 'Add the count of the visit before, or mark its capture as a service read in the captures list. From the next visit on there is a collection to count from.',
  });
}

/** Another machine stood in this place since the last collection. */
export function sayOtherMachine(teller: VisitTeller): void {
  const message =
    'Another machine stood here since the last collection (its asset number differs): nothing can be taken from one to the other.';
  teller.say('restart-inside', message, { advice: 'Settle by hand what was in the box of the machine taken away.' });
}

/** Times and counters contradict each other, so that it is not clear what lies between the last collection and this one. */
export function sayOrderUnclear(teller: VisitTeller): void {
  const message =
    "It is not clear in which order this machine's captures were taken: the times say another order than the counters. What came in since the last collection cannot be told.";
  teller.say('out-of-order', message, {
    severity: 'doubt',
    advice: "Check the machine's clock, the times in the captures list and the dates on the count sheet.",
  });
}

/** What is expected is only a floor. */
export function sayFloor(teller: VisitTeller, pieces: readonly Step[], expected: CashByKind): void {
  const floor = teller.cash(expected);
  const atLeast = floor === '' ? '' : ` At least ${floor} should be there.`;
  const restart = pieces.find(({ restart }) => restart !== null)?.restart ?? null;
  if (restart === null) {
    sayLeast(teller, pieces, atLeast);
    return;
  }
  const message = `The counters started again since the last collection (${restart.evidence}); what came in before that is not all known.${atLeast}`;
  teller.say('restart-inside', message, {
    advice: 'A capture taken before the counters started again would close the gap.',
  });
}

/** Without lifetime counters, what the others show is the least where somebody cleared them, or may have. */
function sayLeast(teller: VisitTeller, pieces: readonly Step[], atLeast: string): void {
  if (pieces.some(({ reset }) => reset === 'unseen')) {
    const message = `Counters were cleared by somebody else since the last collection, and there are no lifetime counters.${atLeast}`;
    const advice = 'Ask who read the machine in between, and for that capture.';
    teller.say('unseen-reset', message, { severity: 'doubt', advice });
    return;
  }
  const message = `There are no lifetime counters, and nothing shows that nobody cleared the others since the last collection.${atLeast}`;
  teller.say('absent-counter', message, {
    advice: "A machine profile that says when this machine clears its counters ('resets') may settle it.",
  });
}

/** A kind of money of which it is not known how much is expected, or how much was counted. */
export function sayNotKnown(
  teller: VisitTeller,
  expected: CashByKind,
  counted: CashByKind,
  lines: readonly ExpectedLine[],
): void {
  const before = teller.findings.length;
  for (const kind of ['coins', 'bills'] as const) {
    const amount = expected[kind];
    if (amount === null) {
      const partly = lines.find((line) => line.kind === kind && line.amount === null && line.source === 'sheet');
      const why =
        partly === undefined
          ? 'the counters do not give it; what is said of the interval tells why'
          : `only some of the bags say what was ${partly.what === 'filled' ? 'filled' : 'paid out'} by hand`;
      teller.say('cash-split', `What is expected in ${kind} is not known: ${why}.`);
    } else if (counted[kind] === null && amount !== 0) {
      teller.say('uncounted', `${teller.money(amount)} is expected in ${kind}, and the sheet gives no count of them.`);
    }
  }
  if (teller.findings.length === before)
    teller.say('cash-split', 'The amounts are too large to be told apart exactly.');
}

/** The sheet's amounts are in another money than the machine's. */
export function sayOtherMoney(teller: VisitTeller, machine: MoneyUnit, sheet: MoneyUnit): void {
  const message = `The machine keeps its money in ${nameUnit(machine)}, the count sheet in ${nameUnit(sheet)}: the two are not compared.`;
  teller.say('mixed-currency', message, {
    advice: "Correct the roster's currency or decimals, or give the machine a profile with its decimals.",
  });
}

const nameUnit = ({ currency, decimals }: MoneyUnit): string =>
  `${currency ?? 'an unknown currency'} with ${decimals ?? 'unknown'} decimals`;

/**
 * Over or short.
 *
 * @param minutesFromVisit - how far from the visit its capture was taken, where it is no service read; else 0
 * @param unclearReads - captures since the last collection that may have been visits: a bag of theirs may be missing
 */
export function sayDifference(
  teller: VisitTeller,
  state: 'over' | 'short',
  expected: CashByKind,
  { coins, bills, total }: OverShort & { readonly total: Minor },
  minutesFromVisit: number,
  unclearReads: number,
): void {
  const due = add(expected.coins, expected.bills);
  const counted = add(due, total);
  const sums =
    due === null || counted === null ? '' : `: ${teller.money(counted)} counted, ${teller.money(due)} expected`;
  const isBagMissing = state === 'short' && unclearReads > 0;
  const kinds = [
    ...(coins === 0 || coins === null ? [] : [`coins ${teller.signed(coins)}`]),
    ...(bills === 0 || bills === null ? [] : [`bills ${teller.signed(bills)}`]),
  ];
  const away =
    minutesFromVisit === 0
      ? ''
      : ` The capture is no service read and was taken ${minutesFromVisit} minutes from the visit: what was bought in between is in the difference.`;
  teller.say(
    state,
    `${teller.money(Math.abs(total))} ${state}${sums} (${kinds.join(', ')}).${away}${isBagMissing ? tellMissingBag(unclearReads) : ''}`,
    {
      advice: isBagMissing ? `Look for a bag that is not on the count sheet. ${RECOUNT}` : RECOUNT,
      cautions: COUNT_CAUTIONS,
    },
  );
}

function tellMissingBag(unclearReads: number): string {
  const captures = unclearReads === 1 ? 'one capture was' : `${unclearReads} captures were`;
  return ` Since the last collection ${captures} taken, and nothing says why: a bag collected then and missing from the sheet is in this difference.`;
}

/** The visit agrees in total, and its kinds do not. */
export function sayKindsDiffer(teller: VisitTeller, coins: Minor, bills: Minor, total: Minor): void {
  const together =
    total === 0 ? 'together they agree' : `together that is ${teller.signed(total)}, within the tolerance`;
  const message = `Coins are off by ${teller.signed(coins)} and bills by ${teller.signed(bills)}; ${together}.`;
  const advice = 'Check whether money was counted as the other kind.';
  teller.say('kinds-differ', message, { advice, cautions: COUNT_CAUTIONS });
}
