import { makeFinding } from '../findings/index.js';
import type { CountRow, LocalDate } from '../model/index.js';
import { joinNames } from './name-bags.js';
import type { Settlement, Visit } from './settlement.js';
import { isSettled, listSettledRows, sumByDriver, sumVisits } from './sum-visits.js';

/** The visits of one route and day, in every currency. */
interface Round {
  readonly route: string | null;
  readonly day: LocalDate;
  /** By currency and decimals; null where they are not known. */
  readonly moneys: Map<string | null, Visit[]>;
}

/**
 * One settlement a route, day and currency, ordered by those: amounts in two currencies, or in minor units of two sizes,
 * are never added together.
 */
export function groupVisits(visits: readonly Visit[]): Settlement[] {
  const settledRows = listSettledRows(visits);
  return collectRounds(visits)
    .sort((a, b) => compareText(keyOf(a), keyOf(b)))
    .flatMap((round) => makeSettlements(round, settledRows));
}

function collectRounds(visits: readonly Visit[]): Round[] {
  const rounds = new Map<string, Round>();
  for (const visit of visits) {
    const { route } = visit;
    const day = dayOf(visit);
    const key = keyOf({ day, route });
    const round = rounds.get(key) ?? { route, day, moneys: new Map<string | null, Visit[]>() };
    rounds.set(key, round);
    const money = moneyOf(visit);
    const same = round.moneys.get(money);
    if (same === undefined) round.moneys.set(money, [visit]);
    else same.push(visit);
  }
  return [...rounds.values()];
}

const dayOf = (visit: Visit): LocalDate => visit.visitedAt!.slice(0, 10);
// No route sorts first, and is told from a route without letters.
const keyOf = ({ day, route }: Pick<Round, 'day' | 'route'>): string => `${day}${route === null ? '' : ` ${route}`}`;
const moneyOf = ({ currency, decimals }: Visit): string | null =>
  currency === null ? null : `${currency} ${decimals ?? '-'}`;
const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

function makeSettlements(round: Round, settledRows: ReadonlySet<CountRow>): Settlement[] {
  const moneys = [...round.moneys.entries()].sort(([a], [b]) => compareText(a ?? '', b ?? ''));
  const known = moneys.filter(([money]) => money !== null);
  const unknown = round.moneys.get(null) ?? [];
  // Bags of which no currency is known came in with the round: they are listed there, being in none of its sums.
  const rides = new Set(known.length === 1 ? unknown.filter((visit) => !isSettled(visit)) : []);
  const groups = moneys
    .map(([money, visits]) => (money === null ? visits.filter((visit) => !rides.has(visit)) : [...visits, ...rides]))
    .filter((visits) => visits.length > 0);
  const mixed = known.length > 1 ? [sayMixed(known.map(([, visits]) => visits[0]!))] : [];
  return groups.map((visits) => makeSettlement(round, visits, settledRows, mixed));
}

function sayMixed(examples: readonly Visit[]) {
  const currencies = new Set(examples.map(({ currency }) => currency));
  const names = examples.map(({ currency, decimals }) =>
    currencies.size === examples.length ? currency! : `${currency} with ${decimals ?? 'unknown'} decimals`,
  );
  const message = `This round has amounts in ${joinNames(names)}; each is settled by itself, and nothing is added across them.`;
  return makeFinding('mixed-currency', message);
}

function makeSettlement(
  { route, day }: Round,
  visits: readonly Visit[],
  settledRows: ReadonlySet<CountRow>,
  findings: Settlement['findings'],
): Settlement {
  const { currency, decimals } = visits.find((visit) => visit.currency !== null) ?? visits[0]!;
  const ordered = [...visits].sort(compareVisits);
  const openings = ordered.map(({ sinceTime }) => sinceTime).filter((time) => time !== null);
  return {
    route,
    day,
    from: openings.sort()[0] ?? null,
    to: ordered.at(-1)!.visitedAt,
    currency,
    decimals,
    visits: ordered,
    totals: sumVisits(ordered, settledRows),
    drivers: sumByDriver(ordered, settledRows),
    findings,
  };
}

/** In the order of the round; visits of one moment by machine, then by their row of the sheet. */
function compareVisits(a: Visit, b: Visit): number {
  return (
    compareText(a.visitedAt!, b.visitedAt!) ||
    compareText(a.machine, b.machine) ||
    (a.counts.at(-1)?.place.row ?? 0) - (b.counts.at(-1)?.place.row ?? 0)
  );
}
