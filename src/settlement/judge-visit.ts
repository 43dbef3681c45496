import type { Finding } from '../findings/index.js';
import { carryDoubts, doubtsBehind } from '../interval/index.js';
import type { LocalDate } from '../model/index.js';
import type { Collection } from './collection.js';
import { compareCounted, type OverShort, stateOf } from './judge-over-short.js';
import {
  sayJointBags,
  sayJointFloor,
  sayLooseBags,
  sayMatchByDate,
  sayNoCapture,
  sayRefusedRow,
  sayRivals,
  sayTwoCaptures,
  sayTwoCounts,
  sayUncounted,
  sayUnknownBags,
  sayUnknownMachine,
  sayUnusable,
} from './match-words.js';
import type { MoneySince } from './measure-since.js';
import {
  sayDifference,
  sayFloor,
  sayKindsDiffer,
  sayNoOpening,
  sayNotKnown,
  sayOrderUnclear,
  sayOtherMachine,
  sayOtherMoney,
} from './money-words.js';
import { tellNearCaptures } from './near-captures.js';
import type { CashByKind, Visit, VisitState } from './settlement.js';
import { unitOfSheet, type VisitContext } from './visit-context.js';
import { minuteOf } from './visit-read.js';
import type { MoneyUnit, VisitTeller } from './visit-teller.js';

/** All that the state of a visit follows from. */
export interface VisitCase {
  readonly collection: Collection;
  readonly context: VisitContext;
  readonly since: MoneySince;
  /** The bags that are settled on this visit. */
  readonly rows: Visit['counts'];
  readonly unit: MoneyUnit;
  readonly isOneMoney: boolean;
  readonly counted: CashByKind;
  readonly teller: VisitTeller;
}

/** How a visit stands; its difference where it is settled, else null. */
export interface Judgement {
  readonly state: VisitState;
  readonly overShort: OverShort | null;
}

const UNSETTLED: Judgement = { state: 'unsettled', overShort: null };

/** Judge a visit, and tell the teller everything a person should know of it. */
export function judgeVisit(visit: VisitCase): Judgement {
  const { collection, since, teller } = visit;
  sayHowItBelongs(visit);
  const judgement = decide(visit);
  if (collection.position >= 0) teller.add(listIntervalFindings(since));
  teller.add(listCarried(visit));
  return judgement;
}

/** What is said of the match, whatever comes of the money. */
function sayHowItBelongs({ collection, context, since, rows, teller }: VisitCase): void {
  const { counts, match, position } = collection;
  const { name, machine, reads, roster, rules } = context;
  const hasReads = reads.usable.all.length + reads.faulty.all.length > 0;
  const isOffRoster = machine === null && roster.books.machines.length > 0;
  if (isOffRoster || (machine === null && !hasReads)) sayUnknownMachine(teller, name, !isOffRoster);
  if (match.isOutsideWindow) sayMatchByDate(teller, counts[0]!, match.read!, rules.windowMinutes);
  if (match.candidates.length > 0) sayTwoCaptures(teller, match.candidates);
  else if (match.read === null) {
    sayNoCapture(teller, collection, tellExpected(since, teller), tellNearCaptures(counts[0]!, context));
  } else if (position < 0) sayUnusable(teller, match.read, collection);
  if (counts.length > 1) sayTwoCounts(teller, counts);
  if (rows.length > counts.length) {
    if (position >= 0) sayJointBags(teller, rows, machine?.driver ?? null);
    else sayJointFloor(teller, rows);
  }
}

function tellExpected({ expected }: MoneySince, teller: VisitTeller): string {
  return expected === null ? '' : teller.cash(expected.cash);
}

function decide(visit: VisitCase): Judgement {
  const { collection, since, counted, teller } = visit;
  const { counts, match, position } = collection;
  if (counts.length === 0) return { state: judgeUncounted(visit), overShort: null };
  if (position < 0) {
    if (!visit.isOneMoney) sayOtherMoney(teller, visit.unit, unitOfSheet(visit.context));
    const isUnread = match.read === null && match.candidates.length === 0;
    return { state: isUnread ? 'unread' : 'unsettled', overShort: null };
  }
  if (isInTheWay(visit)) return UNSETTLED;
  const { cash, lines, isFloor } = since.expected!;
  const overShort = compareCounted(cash, counted);
  if (isFloor) {
    sayFloor(teller, since.pieces!, cash);
    return UNSETTLED;
  }
  if (overShort.total === null) {
    sayNotKnown(teller, cash, counted, lines);
    return UNSETTLED;
  }
  return { state: judgeDifference(visit, cash, { ...overShort, total: overShort.total }), overShort };
}

/** The day of a visit that has no bag. */
export const dateOf = ({ match }: Collection): LocalDate | null => match.read?.time?.slice(0, 10) ?? null;

function judgeUncounted({ collection, context, since, teller }: VisitCase): VisitState {
  const refused = context.refused.mayHold(context.name, dateOf(collection));
  if (refused !== null) {
    sayRefusedRow(teller, refused.row ?? null);
    return 'unsettled';
  }
  const isLeast = since.expected?.isFloor === true || collection.position < 0;
  sayUncounted(teller, tellExpected(since, teller), isLeast, collection.joined);
  return 'uncounted';
}

/** Whether something keeps the visit from being settled, before any figure is looked at; it is said what. */
function isInTheWay({ collection, context, since, unit, isOneMoney, teller }: VisitCase): boolean {
  const { counts, match, opening, unknownBags, looseBags, rivals, isOrderUnclear } = collection;
  const hasNoOpening = opening < 0;
  const isBroken = since.pieces === null;
  if (hasNoOpening) sayNoOpening(teller, match.read!, match.read!.position);
  if (isBroken && since.isOtherMachine) sayOtherMachine(teller);
  else if (isBroken || isOrderUnclear) sayOrderUnclear(teller);
  if (unknownBags.length > 0) sayUnknownBags(teller, unknownBags);
  if (looseBags.length > 0) sayLooseBags(teller, looseBags);
  if (rivals.length > 0) sayRivals(teller, rivals);
  if (!isOneMoney) sayOtherMoney(teller, unit, unitOfSheet(context));
  const isMixed = unknownBags.length + looseBags.length + rivals.length > 0;
  return hasNoOpening || isBroken || isOrderUnclear || isMixed || !isOneMoney || counts.length > 1;
}

function judgeDifference(
  { collection, context, teller }: VisitCase,
  expected: CashByKind,
  overShort: OverShort & { readonly total: number },
): VisitState {
  const state = stateOf(overShort.total, expected, context.rules.tolerance);
  const coins = overShort.coins!;
  const bills = overShort.bills!;
  if (state === 'agreed') {
    if (Math.sign(coins) * Math.sign(bills) < 0) sayKindsDiffer(teller, coins, bills, overShort.total);
    return state;
  }
  sayDifference(teller, state, expected, overShort, minutesFromVisit(collection), collection.unclearReads);
  return state;
}

/** How far the capture lies from the time of the visit, where it is known to be no service read; else 0. */
function minutesFromVisit({ match: { read, matchedBy }, counts }: Collection): number {
  const { date, time } = counts[0]!.visitedAt;
  if (matchedBy !== 'time' || read!.isService !== false) return 0;
  return Math.abs(read!.minute! - minuteOf(`${date}T${time!}`));
}

/** The doubts of the captures that a visit rests on: its own, that of the collection counted from, and those between. */
function listCarried({ collection: { opening, position }, context, since: { pieces } }: VisitCase): Visit['findings'] {
  if (pieces !== null && pieces.length > 0) return doubtsBehind(pieces);
  const { all } = context.reads.usable;
  return carryDoubts([all[opening], all[position]].flatMap((read) => read?.taken ?? []));
}

/**
 * What is said of the interval as a whole. Resets by others are told from read to read: end to end the operator's own
 * reads in between would look like somebody else's. So is customers' credit: the read beside it shows whether there was any.
 */
function listIntervalFindings({ interval, pieces }: MoneySince): Visit['findings'] {
  const parts = (pieces ?? []).flatMap(({ findings }) => findings);
  if (interval === null) return parts;
  const isOfParts = ({ code }: Finding): boolean => code === 'unseen-reset' || code === 'credit-standing';
  return [...interval.findings.filter((finding) => !isOfParts(finding)), ...parts.filter(isOfParts)];
}
