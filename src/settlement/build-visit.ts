import { type Collection, visitedAtOf } from './collection.js';
import { NOT_COUNTED, sumCounted } from './counted-cash.js';
import { dateOf, judgeVisit } from './judge-visit.js';
import { type MoneySince, measureSince, NOTHING_SINCE } from './measure-since.js';
import { driversOf, nameBag } from './name-bags.js';
import type { Visit } from './settlement.js';
import { isSameMoney, routeOf, unitOfSheet, type VisitContext } from './visit-context.js';
import type { VisitRead } from './visit-read.js';
import { type MoneyUnit, type VisitPlace, VisitTeller } from './visit-teller.js';

const UNKNOWN: Visit['overShort'] = { ...NOT_COUNTED, total: null };

/** Work out one collection: what was expected, counted, over or short, and how it stands. */
export function buildVisit(collection: Collection, context: VisitContext): Visit {
  const { counts, match, joined, opening } = collection;
  const { name, machine, reads } = context;
  const from = reads.usable.all[opening] ?? null;
  // A service read without a bag has nothing to set against the bags before it.
  const all = counts.length === 0 ? [] : [...joined, ...counts];
  const since = measure(collection, context, all);
  // Bags without a usable capture have nothing in common where nothing is known of what they should hold.
  const rows = collection.position < 0 && since.expected === null ? counts : all;
  const unit = unitOf(match.read ?? from ?? reads.usable.all.at(-1) ?? null, context);
  const isOneMoney = counts.length === 0 || isSameMoney(unit, unitOfSheet(context));
  const counted = isOneMoney && counts.length < 2 ? sumCounted(rows) : NOT_COUNTED;
  const teller = new VisitTeller(placeOf(collection, name), unit);
  const { state, overShort } = judgeVisit({ collection, context, since, rows, unit, isOneMoney, counted, teller });
  const last = counts.at(-1);
  return {
    machine: name,
    location: machine?.location ?? null,
    driver: last?.driver ?? machine?.driver ?? null,
    drivers: driversOf(rows, machine?.driver ?? null),
    route: routeOf(last, machine),
    visitedAt: last === undefined ? (match.read?.time ?? null) : visitedAtOf(last),
    bag: counts.length === 0 ? (context.refused.bagOf(name, dateOf(collection))?.bag ?? null) : nameOfBag(counts),
    matchedBy: match.matchedBy,
    capture: match.read?.taken.file ?? null,
    since: from?.taken.file ?? null,
    sinceTime: from?.time ?? null,
    ...unit,
    expected: since.expected?.cash ?? NOT_COUNTED,
    expectedIsFloor: since.expected !== null && (since.expected.isFloor || collection.position < 0),
    expectedLines: since.expected?.lines ?? [],
    expectedFrom: since.expectedFrom,
    counted,
    overShort: overShort ?? UNKNOWN,
    state,
    jointBags: rows.length > counts.length ? rows.map(nameBag) : [],
    sales: collection.position < 0 ? NOTHING_SINCE.sales : since.sales,
    interval: since.interval,
    counts: rows,
    joinedCounts: rows.length > counts.length ? joined : [],
    isOtherMoney: !isOneMoney,
    findings: teller.findings,
  };
}

function measure(
  { opening, known, isOrderUnclear, unknownBags, looseBags, rivals }: Collection,
  { reads, roster, rules }: VisitContext,
  rows: Visit['counts'],
): MoneySince {
  if (opening < 0 || isOrderUnclear) return NOTHING_SINCE;
  const since = measureSince(reads, opening, known, roster, { counts: rows, ignore: rules.ignoreHandMoves });
  // What came in is known then, and not in which bag it lies.
  const isMixed = unknownBags.length + looseBags.length + rivals.length > 0;
  return isMixed ? { ...since, expected: null, expectedFrom: [] } : since;
}

/** In which money a visit is: its capture's, else the one before it, else the sheet's. */
function unitOf(read: VisitRead | null, context: VisitContext): MoneyUnit {
  const sheet = unitOfSheet(context);
  return {
    currency: read?.taken.currency ?? context.machine?.currency ?? sheet.currency,
    decimals: read?.taken.decimals ?? sheet.decimals,
  };
}

function placeOf({ counts, match }: Collection, machine: string): VisitPlace {
  const place = counts.at(-1)?.place;
  if (place !== undefined) return { machine, file: place.file, row: place.row };
  return match.read === null ? { machine } : { machine, file: match.read.taken.file };
}

/** The one bag; null where several rows claim the visit under different names. */
function nameOfBag(counts: Visit['counts']): string | null {
  const names = new Set(counts.map(({ bag }) => bag));
  return names.size === 1 ? [...names][0]! : null;
}
