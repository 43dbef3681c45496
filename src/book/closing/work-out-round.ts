import type { MoneyDefaults } from '../../checks/index.js';
import { type Finding, makeFinding } from '../../findings/index.js';
import { type CountRow, type LocalDate, moveDate, pushAll, type UnusableCount } from '../../model/index.js';
import { groupVisits } from '../../settlement/group-visits.js';
import {
  type HistoryInputs,
  type Settlement,
  type SettleOptions,
  settleHistories,
  unusableFor,
  type Visit,
} from '../../settlement/index.js';
import { baseName, decimalsFromRoster, type MoneyRules, type OfficeBooks, type Roster } from '../../sheets/index.js';
import { Contents, Recall, type RecalledHistories, recallHistory } from '../recall/index.js';
import type { BookRead, BookStore } from '../store/index.js';
import { type BookCount, loadCounts, toRow } from './book-counts.js';
import type { CountBody } from './count-shapes.js';
import { loadHistory } from './limit-history.js';
import { groupMachines, type RoundMachine, readsAround } from './machine-names.js';

/** What a round is worked out with, besides the book. */
export interface RoundRequest {
  readonly day: LocalDate;
  /** Only this route; null is the round of no route. Default: all. */
  readonly route?: string | null;
  /** What the office says today. */
  readonly roster: Roster;
  /** What closings that had no entry for it say of rows that could not be used; see `RoundInputs.countFindings`. */
  readonly refused?: readonly Finding[];
  /** Rows of the day that could not be used and are not put right. */
  readonly unusable?: readonly UnusableCount[];
  /** The number of the first entry that is only planned; see `PlannedBook`. Default: none is. */
  readonly plannedFrom?: number;
  readonly settle?: Pick<SettleOptions, 'tolerance' | 'windowMinutes' | 'ignoreHandMoves'>;
  readonly defaults?: MoneyDefaults;
  readonly clockToleranceMinutes?: number;
  readonly isFileTimeReceived?: boolean;
  /** The reads of the days around, where they were looked up already; see {@link readsAround}. */
  readonly around?: readonly BookRead[];
}

/** A bag that the round is settled with, and its entry. */
export interface UsedCount {
  readonly row: CountRow;
  readonly entry: number;
  readonly body: CountBody;
}

/** What a visit rests on, as entries of the book. */
export interface VisitSources {
  readonly capture: number | null;
  /** All captures between the collection counted from and its own. */
  readonly captures: readonly number[];
  readonly counts: readonly UsedCount[];
}

/** A day's visits worked out from the book. */
export interface WorkedRound {
  readonly visits: readonly Visit[];
  readonly sources: ReadonlyMap<Visit, VisitSources>;
  readonly findings: readonly Finding[];
  /** Reads that were looked at, by the names of their machines. */
  readonly reads: ReadonlyMap<string, readonly BookRead[]>;
  /** What the captures list says of the files looked at, and the profiles that hold for their machines. */
  readonly listed: OfficeBooks['capturesList'];
  readonly profiles: OfficeBooks['profiles'];
}

/**
 * Work out the visits of a day from the book: its reads as if they had just come, and its bags. Only
 * machines that have a bag of the day or may have been visited are looked at, one after the other.
 */
export async function workOutRound(store: BookStore, request: RoundRequest): Promise<WorkedRound> {
  const { day, roster, defaults, clockToleranceMinutes, isFileTimeReceived = false } = request;
  const around = request.around ?? (await readsAround(store, day));
  const onDay = await loadCounts(store, { dayFrom: day, dayTo: day });
  const machines = groupMachines(
    namesOf(
      around,
      onDay.map(({ body }) => body),
      request,
    ),
    around,
    roster,
  );
  const take = {
    roster,
    ...(defaults === undefined ? {} : { defaults }),
    ...(clockToleranceMinutes === undefined ? {} : { clockToleranceMinutes }),
  };
  const recall = new Recall(store, { take, isFileTimeReceived });
  const stale = new Set((await store.staleMachines()).map(({ machine }) => machine));
  const work = new RoundWork(store, request, { recall, stale });
  for (const machine of machines) await work.add(machine);
  return work.end();
}

/** Names of the machines that may have a visit in the round. */
function* namesOf(
  around: readonly BookRead[],
  inBook: readonly Pick<CountRow, 'machine' | 'route'>[],
  { day, route, roster, unusable = [] }: RoundRequest,
): Generator<string> {
  const isOfRoute = (name: string, said: string | null): boolean =>
    route === undefined || (said ?? roster.machine(name)?.route ?? null) === route;
  for (const { machine, route: said } of [...inBook, ...unusable]) {
    if (machine !== null && isOfRoute(machine, said)) yield machine;
  }
  // Without a bag only a service read makes a visit.
  const mayBeService = roster.books.profiles.length > 0 || roster.books.capturesList.length > 0;
  for (const { machine, reason, at } of around) {
    const mayBeVisit = at!.startsWith(day) && (mayBeService || reason === 'service');
    const name = mayBeVisit ? roster.nameOfKey(machine!) : null;
    if (name !== null && isOfRoute(name, null)) yield name;
  }
}

/** What a round is worked out with, besides what was asked. */
interface RoundSetting {
  readonly recall: Recall;
  /** Machines that are not worked out, by key. */
  readonly stale: ReadonlySet<string>;
}

/** Settles machines one by one, so that only one machine's reads are held at a time. */
class RoundWork {
  readonly #store: BookStore;
  readonly #request: RoundRequest;
  readonly #recall: Recall;
  readonly #stale: ReadonlySet<string>;
  readonly #visits: Visit[] = [];
  readonly #sources = new Map<Visit, VisitSources>();
  readonly #findings: Finding[] = [];
  readonly #reads = new Map<string, readonly BookRead[]>();
  readonly #files = new Set<string>();
  readonly #profiles = new Set<OfficeBooks['profiles'][number]>();

  constructor(store: BookStore, request: RoundRequest, { recall, stale }: RoundSetting) {
    this.#store = store;
    this.#request = request;
    this.#recall = recall;
    this.#stale = stale;
  }

  async add({ names, keys }: RoundMachine): Promise<void> {
    const { day, route, roster, settle = {} } = this.#request;
    const known = await loadHistory(this.#store, keys, day);
    const contents = new Contents(this.#recall);
    const histories = await this.#recallHistories(known, contents);
    for (const { entry } of known) this.#files.add(baseName((await this.#recall.file(entry)).name));
    for (const { profile } of histories.rowOf.keys()) if (profile !== null) this.#profiles.add(profile);
    const counts = unifyMoney(await this.#countsOf(names, known), day, this.#findings);
    const used = await this.#pointToCaptures(counts, known);
    const inputs: HistoryInputs = {
      histories,
      counts: used.map(({ row }) => row),
      roster,
      countFindings: this.#request.refused ?? [],
      unusable: unusableFor(names, this.#request.unusable ?? [], roster),
      countMoney: moneyRulesOf(used, this.#request),
    };
    const { settlements, findings } = await contents.during(() => settleHistories(inputs, { ...settle, day }));
    const byRow = new Map(used.map((count) => [count.row, count]));
    const visits = settlements
      .flatMap((settlement) => settlement.visits)
      .filter((visit) => route === undefined || visit.route === route);
    // What is found in the history of a machine that was not visited is another day's.
    if (visits.length > 0) pushAll(this.#findings, findings);
    for (const visit of visits) {
      this.#visits.push(visit);
      this.#sources.set(visit, this.#sourcesOf(visit, byRow));
    }
    for (const name of names) this.#reads.set(name, known);
  }

  end(): WorkedRound {
    const { roster } = this.#request;
    const listed = roster.books.capturesList.filter(({ file }) => this.#files.has(baseName(file)));
    return {
      visits: this.#visits,
      sources: this.#sources,
      findings: this.#findings,
      reads: this.#reads,
      listed,
      profiles: [...this.#profiles],
    };
  }

  #recallHistories(rows: readonly BookRead[], contents: Contents): Promise<RecalledHistories> {
    const keys = [...new Set(rows.map(({ machine }) => machine!))];
    const isWorkedOut = !keys.some((key) => this.#stale.has(key));
    return recallHistory(this.#store, this.#recall, { keys, rows, isWorkedOut }, contents);
  }

  /** The machine's bags within its history. */
  async #countsOf(names: ReadonlySet<string>, known: readonly BookRead[]): Promise<UsedCount[]> {
    const { day, plannedFrom = Number.POSITIVE_INFINITY } = this.#request;
    const times = known.map(({ at }) => at).filter((at) => at !== null);
    const dayFrom = moveDate([day, ...times].sort()[0]!.slice(0, 10), -1);
    const inBook: BookCount[] = [];
    for (const machine of names) pushAll(inBook, await loadCounts(this.#store, { machine, dayFrom }));
    return inBook.map((count) => ({ ...count, row: toRow(count, count.entry < plannedFrom) }));
  }

  /**
   * A capture that a bag names is the file of that name at its visit: readers give every day's file the same name, and a
   * later one must not take the earlier one's bag.
   */
  async #pointToCaptures(counts: readonly UsedCount[], known: readonly BookRead[]): Promise<UsedCount[]> {
    const files = new Map<number, { name: string; label: string; days: Set<string> }>();
    for (const { entry, at } of known) {
      const file = await this.#recall.file(entry);
      const own = files.get(entry) ?? {
        name: baseName(file.name),
        label: this.#recall.labels.labelOf(file),
        days: new Set(),
      };
      if (at !== null) own.days.add(at.slice(0, 10));
      files.set(entry, own);
    }
    return counts.map((count) => {
      const { row, body } = count;
      if (row.capture === null) return count;
      const settled = files.get(body.captureEntry ?? -1);
      const alike = [...files.values()].filter(({ name }) => name === baseName(row.capture!));
      const ofDay = alike.filter(({ days }) => days.has(row.visitedAt.date));
      const found = settled ?? (alike.length > 1 && ofDay.length === 1 ? ofDay[0]! : null);
      return found === null ? count : { ...count, row: { ...row, capture: found.label } };
    });
  }

  #sourcesOf(visit: Visit, byRow: ReadonlyMap<CountRow, UsedCount>): VisitSources {
    const { labels } = this.#recall;
    const intervals = visit.interval === null ? visit.expectedFrom : [...visit.expectedFrom, visit.interval];
    const files = new Set(intervals.flatMap(({ from, to }) => [from.file, to.file]));
    for (const file of [visit.capture, visit.since]) if (file !== null) files.add(file);
    const entries = [...files].map((file) => labels.entryOf(file)!).sort((a, b) => a - b);
    const counts = visit.counts.map((row) => byRow.get(row)!);
    return { capture: visit.capture === null ? null : labels.entryOf(visit.capture), captures: entries, counts };
  }
}

/** In which money a machine's bags were counted. */
function moneyRulesOf(counts: readonly UsedCount[], { roster, defaults }: RoundRequest): MoneyRules {
  const unit = counts.at(-1)?.body;
  if (unit === undefined) return decimalsFromRoster(roster.books.machines, defaults?.decimals ?? null);
  return { currencyOf: () => unit.currency, decimalsOf: () => unit.decimals, defaultDecimals: null };
}

/** Bags of one machine in one money: those of the day; others are left out, and that is said. */
function unifyMoney(counts: readonly UsedCount[], day: LocalDate, findings: Finding[]): UsedCount[] {
  const unit = (counts.findLast(({ row }) => row.visitedAt.date === day) ?? counts.at(-1))?.body;
  const same = counts.filter(({ body }) => body.currency === unit?.currency && body.decimals === unit?.decimals);
  const left = counts.length - same.length;
  if (left > 0) {
    const { machine } = counts[0]!.row;
    const message = `Of the bags of this machine ${left} ${left === 1 ? 'is' : 'are'} in the book in another currency or with other decimals, and left aside.`;
    findings.push(makeFinding('currency-differs', message, { machine }));
  }
  return same;
}

/** The settlements of a round, without visits that another closing has. */
export function groupRound({ visits }: WorkedRound, isTaken: (visit: Visit) => boolean): Settlement[] {
  return groupVisits(visits.filter((visit) => !isTaken(visit)));
}
