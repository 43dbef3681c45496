import type { LocalDate } from '../../model/index.js';
import type { SettlementJson } from '../../report/index.js';
import type { BookStore, Entry } from '../store/index.js';
import { type OldCarried, type ReadAdjustment, readAdjustmentBody, readClosingBody } from './read-closing.js';
import type { RecordedTotals } from './recorded-settlement.js';
import type { AdjustmentBody, ClosingBody, Standing } from './shapes.js';

/** What a settlement is told from others by. */
export type SettlementName = Pick<SettlementJson, 'route' | 'day' | 'currency' | 'decimals'>;
/** In which money a settlement is: only amounts of one are ever added. */
export type SettlementMoney = Pick<SettlementName, 'currency' | 'decimals'>;

const wordsOfMoney = ({ currency, decimals }: SettlementMoney): string => `${currency ?? '-'} ${decimals ?? '-'}`;

/** Whether two settlements are in one money. */
export function isOneMoney(a: SettlementMoney, b: SettlementMoney): boolean {
  return a.currency === b.currency && a.decimals === b.decimals;
}

/** The key of a closed settlement: no route, day and currency is closed twice. A route's name is quoted, whatever is in it. */
export function keyOfSettlement(name: SettlementName): string {
  return `settlement ${JSON.stringify(name.route)} ${name.day} ${wordsOfMoney(name)}`;
}

/** The subject of a closed settlement and its adjustments. */
export function subjectOfSettlement(name: Omit<SettlementName, 'day'>): string {
  return `route ${JSON.stringify(name.route)} ${wordsOfMoney(name)}`;
}

/** A closed settlement as its entry has it. */
export interface Closing {
  readonly entry: number;
  readonly recordedAt: string;
  readonly by: string;
  readonly key: string;
  readonly subject: string;
  readonly body: ClosingBody;
  /** What it took over, where its own entry says so; null where entries of their own do. */
  readonly carried: readonly OldCarried[] | null;
  readonly adjustments: readonly Adjustment[];
}

/** An adjustment as its entry has it. */
export interface Adjustment {
  readonly entry: number;
  readonly recordedAt: string;
  readonly body: ReadAdjustment;
}

/** How a closed settlement stands by what is recorded. */
export interface RecordedState {
  readonly visits: readonly Standing[];
  /** Of rounds that were adjusted long ago, only money. */
  readonly totals: Partial<RecordedTotals>;
  readonly drivers: AdjustmentBody['drivers'] | null;
  /** Size of the book when it was recorded. */
  readonly bookSize: number;
}

/**
 * The settlements that are closed, in the order in which they were, each with its adjustments: for pages and sheets, which
 * name the entry.
 *
 * @throws BookError (as a rejection) `corrupted` when an entry does not say what it must
 * @example for (const { entry, by } of await closingsOf(book, { day: '2026-11-24' })) console.log(entry, by);
 */
export async function closingsOf(
  store: BookStore,
  days: { readonly day?: LocalDate; readonly dayFrom?: LocalDate; readonly dayTo?: LocalDate } = {},
): Promise<Closing[]> {
  const { day, dayFrom = day, dayTo = day } = days;
  const query = { ...(dayFrom === undefined ? {} : { dayFrom }), ...(dayTo === undefined ? {} : { dayTo }) };
  const closings: Closing[] = [];
  for await (const entry of store.entries({ ...query, kinds: ['settlement-closed'] })) {
    closings.push(await readClosing(store, entry));
  }
  return closings;
}

/** A settlement that is closed, by its entry; null where the entry closes none. */
export async function closingOf(store: BookStore, seq: number): Promise<Closing | null> {
  const entry = await store.entry(seq);
  return entry?.kind === 'settlement-closed' ? readClosing(store, entry) : null;
}

async function readClosing(store: BookStore, entry: Entry): Promise<Closing> {
  const { body, carried } = readClosingBody(entry);
  const adjustments: Adjustment[] = [];
  let totals: Partial<RecordedTotals> = body.settlement.totals;
  for await (const each of store.entries({ kinds: ['adjustment'], refersTo: entry.seq })) {
    const read = readAdjustmentBody(each, { body, totals });
    adjustments.push({ entry: each.seq, recordedAt: each.recordedAt, body: read });
    totals = read.totals;
  }
  const { seq, recordedAt, key, subject } = entry;
  return { entry: seq, recordedAt, by: body.by, key: key ?? '', subject: subject ?? '', body, carried, adjustments };
}

/** How a closed settlement stands in the book: as closed, or as last adjusted. */
export function recordedState({ body, adjustments }: Pick<Closing, 'body' | 'adjustments'>): RecordedState {
  const last = adjustments.at(-1)?.body;
  if (last !== undefined) return last;
  const { settlement, visits, bookSize } = body;
  return { visits, totals: settlement.totals, drivers: settlement.drivers, bookSize };
}
