import { makeFinding } from '../findings/index.js';
import type { LocalDate, UnusableCount } from '../model/index.js';
import type { MoneyRules, Roster } from '../sheets/index.js';
import { NOT_COUNTED } from './counted-cash.js';
import { NOTHING_SINCE } from './measure-since.js';
import type { SettleRules } from './settle-options.js';
import type { Visit } from './settlement.js';

/** What visits of rows that could not be used are made with. */
interface UnusableContext {
  readonly roster: Roster;
  readonly rules: SettleRules;
  readonly sheetMoney: MoneyRules;
  readonly isInScope: (date: LocalDate) => boolean;
}

/**
 * Visits of rows of the count sheet that could not be used, where no other visit stands for them: somebody counted a bag
 * there. They are unsettled, and in no sum. A row whose machine or day cannot be read is no visit.
 *
 * @param visits - those of bags and reads; one that a row may belong to says so itself
 */
export function listUnusableVisits(
  rows: readonly UnusableCount[],
  visits: readonly Visit[],
  { roster, rules, sheetMoney, isInScope }: UnusableContext,
): Visit[] {
  const taken = new Set(
    visits
      .filter(({ counts, state }) => counts.length === 0 && state === 'unsettled')
      .map(({ machine, visitedAt }) => `${visitedAt?.slice(0, 10)} ${machine}`),
  );
  return rows
    .filter((row) => {
      const { machine, visitedAt } = row;
      if (machine === null || visitedAt === null || !isInScope(visitedAt.date)) return false;
      // One visit of the day can stand for one row alone.
      return !taken.delete(`${visitedAt.date} ${machine}`);
    })
    .map((row) => makeVisit(row, roster, sheetMoney))
    .filter(({ route }) => rules.route === null || route === rules.route);
}

function makeVisit(
  { machine, visitedAt, bag, route, driver, place }: UnusableCount,
  roster: Roster,
  money: MoneyRules,
): Visit {
  const row = roster.machine(machine!);
  const { date, time } = visitedAt!;
  const message = `Row ${place.row} of the count sheet could not be used: what was counted for this bag is not known.`;
  const finding = makeFinding('bad-row', message, {
    machine: machine!,
    ...place,
    advice: 'Correct the row and settle again.',
  });
  const who = driver ?? row?.driver ?? null;
  return {
    machine: machine!,
    location: row?.location ?? null,
    driver: who,
    drivers: who === null ? [] : [who],
    route: route ?? row?.route ?? null,
    visitedAt: time === null ? date : `${date}T${time}`,
    bag,
    matchedBy: null,
    capture: null,
    since: null,
    sinceTime: null,
    currency: row?.currency ?? null,
    decimals: row?.decimals ?? money.decimalsOf(machine!) ?? money.defaultDecimals,
    expected: NOT_COUNTED,
    expectedIsFloor: false,
    expectedLines: [],
    expectedFrom: [],
    counted: NOT_COUNTED,
    overShort: { ...NOT_COUNTED, total: null },
    state: 'unsettled',
    jointBags: [],
    sales: NOTHING_SINCE.sales,
    interval: null,
    counts: [],
    joinedCounts: [],
    isOtherMoney: false,
    findings: [finding],
  };
}
