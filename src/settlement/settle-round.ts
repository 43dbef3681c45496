import { type Finding, makeFinding, printable } from '../findings/index.js';
import { bestTime, buildIntervals, type TakenRead } from '../interval/index.js';
import type { CountRow, LocalDate } from '../model/index.js';
import type { Roster } from '../sheets/index.js';
import { buildVisit, type VisitContext } from './build-visit.js';
import { type MachineReads, ReadsByMachine } from './machine-reads.js';
import { arrangeVisits } from './machine-visits.js';
import {
  type Settlement,
  type Settlements,
  type SettleOptions,
  VISIT_WINDOW_MINUTES,
  type Visit,
} from './settlement.js';
import { sumByDriver, sumVisits } from './sum-visits.js';

/** What a round is settled from. */
export interface RoundInputs {
  readonly reads: readonly TakenRead[];
  readonly counts: readonly CountRow[];
  readonly roster: Roster;
  /** Findings about the count sheet: a machine whose row was refused is not claimed to be uncounted. */
  readonly countFindings?: readonly Finding[];
}

/**
 * Settle rounds: bags matched to captures, what was expected, counted, over and short, per machine, driver and route.
 *
 * One settlement a route, day and currency; two currencies are never added together. Every match says how it was made,
 * nothing is guessed: what is in the way of settling a visit is said in its findings.
 */
export function settleRound(inputs: RoundInputs, options: SettleOptions = {}): Settlements {
  const intervals = buildIntervals(inputs.reads, inputs.roster);
  const byMachine = new ReadsByMachine(inputs.reads, intervals);
  const scope = scopeOf(inputs.counts, options);
  const visits: Visit[] = [];
  for (const [name, reads] of machinesOf(inputs.counts, byMachine)) {
    const context: VisitContext = {
      name,
      machine: inputs.roster.machine(name),
      reads,
      roster: inputs.roster,
      tolerance: options.tolerance ?? { amount: 0, basisPoints: 0 },
      ignoreHandMoves: options.ignoreHandMoves ?? false,
    };
    const counts = inputs.counts.filter((count) => count.machine === name).sort(byMoment);
    for (const collection of arrangeVisits(counts, reads, options.windowMinutes ?? VISIT_WINDOW_MINUTES)) {
      const read = reads.ordered[collection.position];
      const date =
        collection.counts[0]?.visitedAt.date ?? (read === undefined ? null : (bestTime(read)?.slice(0, 10) ?? null));
      if (!scope.covers(date)) continue;
      // The first service read of all is where counting starts, not a visit that somebody forgot to count.
      if (collection.counts.length === 0 && collection.opening < 0) continue;
      if (collection.counts.length === 0 && isRefused(inputs.countFindings ?? [], name)) continue;
      visits.push(withUnknownMachine(buildVisit(collection, context), inputs.roster, reads));
    }
  }
  const onRoute = visits.filter((visit) => options.route === undefined || visit.route === options.route);
  return { settlements: groupVisits(onRoute), findings: intervals.findings };
}

const NO_READS: MachineReads = { ordered: [], faulty: [], intervalTo: new Map() };

/** Every machine that was counted or read, once, by the name that the sheets use. */
function* machinesOf(counts: readonly CountRow[], byMachine: ReadsByMachine): Generator<[string, MachineReads]> {
  const seen = new Set<MachineReads>();
  for (const name of new Set(counts.map((count) => count.machine))) {
    const reads = byMachine.find(name) ?? NO_READS;
    seen.add(reads);
    yield [name, reads];
  }
  for (const [name, reads] of byMachine.entries()) {
    if (!seen.has(reads)) yield [name, reads];
  }
}

const byMoment = (a: CountRow, b: CountRow): number => {
  const left = `${a.visitedAt.date}T${a.visitedAt.time ?? '12:00:00'}`;
  const right = `${b.visitedAt.date}T${b.visitedAt.time ?? '12:00:00'}`;
  return left < right ? -1 : left > right ? 1 : 0;
};

/** The days that are settled: the one asked for, else those from the first count to the last. */
function scopeOf(counts: readonly CountRow[], { day }: SettleOptions): { covers: (date: LocalDate | null) => boolean } {
  if (day !== undefined) return { covers: (date) => date === day };
  const dates = counts.map((count) => count.visitedAt.date).sort();
  const first = dates[0];
  const last = dates.at(-1);
  if (first === undefined || last === undefined) return { covers: () => false };
  return { covers: (date) => date !== null && date >= first && date <= last };
}

function isRefused(findings: readonly Finding[], machine: string): boolean {
  return findings.some((finding) => finding.machine === machine && finding.code !== 'duplicate-row');
}

function withUnknownMachine(visit: Visit, roster: Roster, reads: MachineReads): Visit {
  const isKnown = roster.books.machines.length === 0 || roster.machine(visit.machine) !== null;
  if (isKnown && (reads !== NO_READS || roster.machine(visit.machine) !== null)) return visit;
  const where = isKnown ? 'No capture names it' : 'It is not on the roster';
  const message = `Machine ${printable(visit.machine, 40)}: ${where}; check how the count sheet writes its name.`;
  const place = visit.counts[0]?.place;
  const at = place === undefined ? {} : { file: place.file, row: place.row, field: 'machine' };
  return {
    ...visit,
    findings: [makeFinding('unknown-machine', message, { machine: visit.machine, ...at }), ...visit.findings],
  };
}

function groupVisits(visits: readonly Visit[]): Settlement[] {
  const groups = new Map<string, Visit[]>();
  for (const visit of visits) {
    const key = JSON.stringify([visit.route, dayOf(visit), currencyOf(visit, visits)]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [visit]);
    else group.push(visit);
  }
  const settlements = [...groups.values()].map((group) => makeSettlement(group, visits));
  return settlements.sort((a, b) => compareText(keyOf(a), keyOf(b)));
}

const keyOf = ({ day, route, currency }: Settlement): string => `${day} ${route ?? ''} ${currency ?? ''}`;
const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
const dayOf = (visit: Visit): LocalDate => (visit.visitedAt ?? '').slice(0, 10);

/** A visit that no capture and no roster gives a currency goes with its round's, when that has only one. */
function currencyOf(visit: Visit, visits: readonly Visit[]): string | null {
  if (visit.currency !== null) return `${visit.currency} ${visit.decimals}`;
  const others = new Set<string>();
  for (const other of visits) {
    if (other.currency !== null && other.route === visit.route && dayOf(other) === dayOf(visit)) {
      others.add(`${other.currency} ${other.decimals}`);
    }
  }
  return others.size === 1 ? [...others][0]! : null;
}

function makeSettlement(visits: readonly Visit[], all: readonly Visit[]): Settlement {
  const first = visits[0]!;
  const money = visits.find((visit) => visit.currency !== null) ?? first;
  const ordered = [...visits].sort((a, b) => compareText(`${a.visitedAt} ${a.machine}`, `${b.visitedAt} ${b.machine}`));
  const currencies = new Set(
    all
      .filter((visit) => visit.route === first.route && dayOf(visit) === dayOf(first))
      .map((visit) => currencyOf(visit, all)),
  );
  const openings = ordered.map((visit) => visit.sinceTime).filter((time) => time !== null);
  return {
    route: first.route,
    day: dayOf(first),
    from: openings.sort()[0] ?? null,
    to: ordered.at(-1)!.visitedAt,
    currency: money.currency,
    decimals: money.decimals,
    visits: ordered,
    totals: sumVisits(ordered),
    drivers: sumByDriver(ordered),
    findings:
      currencies.size > 1
        ? [
            makeFinding(
              'mixed-currency',
              `This round has ${currencies.size} currencies; each is settled by itself, and nothing is added across them.`,
            ),
          ]
        : [],
  };
}
