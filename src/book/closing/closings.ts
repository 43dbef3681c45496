import type { LocalDate } from '../../model/index.js';
import type { SettlementJson } from '../../report/index.js';
import type { AdjustmentJson, CarriedJson } from '../../report/shapes/closing.js';
import type { BookStore, Entry } from '../store/index.js';
import { readBody } from './read-body.js';
import {
  type AdjustmentBody,
  adjustmentBodySchema,
  type ClosingBody,
  closingBodySchema,
  type Standing,
} from './shapes.js';

/** What a settlement is told from others by. */
export type SettlementName = Pick<SettlementJson, 'route' | 'day' | 'currency' | 'decimals'>;

const moneyOf = ({ currency, decimals }: Omit<SettlementName, 'day' | 'route'>): string =>
  `${currency ?? '-'} ${decimals ?? '-'}`;

/** The key of a closed settlement: no route, day and currency is closed twice. A route's name is quoted, whatever is in it. */
export function keyOfSettlement(name: SettlementName): string {
  return `settlement ${JSON.stringify(name.route)} ${name.day} ${moneyOf(name)}`;
}

/** The subject of a closed settlement and its adjustments: those of one subject follow each other, and carry over. */
export function subjectOfSettlement(name: Omit<SettlementName, 'day'>): string {
  return `route ${JSON.stringify(name.route)} ${moneyOf(name)}`;
}

/** A closed settlement as its entry has it. */
export interface Closing {
  readonly entry: number;
  readonly recordedAt: string;
  readonly by: string;
  readonly key: string;
  readonly subject: string;
  readonly body: ClosingBody;
  readonly adjustments: readonly Adjustment[];
}

/** An adjustment as its entry has it. */
export interface Adjustment {
  readonly entry: number;
  readonly recordedAt: string;
  readonly body: AdjustmentBody;
  /** The settlement that took it over; null while none has. */
  readonly carriedBy: number | null;
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

async function readClosing(store: BookStore, entry: Entry): Promise<Closing> {
  const body = readBody(closingBodySchema, entry);
  const adjustments: Adjustment[] = [];
  for await (const each of store.entries({ kinds: ['adjustment'], refersTo: entry.seq })) {
    const carriedBy = await findNextClosing(store, each);
    adjustments.push({
      entry: each.seq,
      recordedAt: each.recordedAt,
      body: readBody(adjustmentBodySchema, each),
      carriedBy,
    });
  }
  const { seq, recordedAt, key, subject } = entry;
  return { entry: seq, recordedAt, by: body.by, key: key ?? '', subject: subject ?? '', body, adjustments };
}

/** The first settlement of a subject that was closed after an entry: every one takes over all there is to take over. */
async function findNextClosing(store: BookStore, { seq, subject }: Entry): Promise<number | null> {
  for await (const { seq: next } of store.entries({
    kinds: ['settlement-closed'],
    subject: subject ?? '',
    from: seq + 1,
  })) {
    return next;
  }
  return null;
}

/** How a closed settlement's visits stand in the book: as closed, or as last adjusted. */
export function standingsOf({ body, adjustments }: Closing): readonly Standing[] {
  return adjustments.at(-1)?.body.visits ?? body.visits;
}

/** The adjustments that the next settlement of a subject takes over, oldest first. */
export async function listPending(store: BookStore, name: Omit<SettlementName, 'day'>): Promise<CarriedJson[]> {
  const subject = subjectOfSettlement(name);
  const adjustments: Entry[] = [];
  for await (const entry of store.entries({ kinds: ['adjustment'], subject })) adjustments.push(entry);
  const pending: Entry[] = [];
  // From the latest back: what came before one that was taken over was taken over as well.
  for (const entry of adjustments.toReversed()) {
    if ((await findNextClosing(store, entry)) !== null) break;
    pending.unshift(entry);
  }
  const { currency, decimals } = name;
  return pending.map((entry) => {
    const { changes } = readBody(adjustmentBodySchema, entry);
    const { expected, counted, overShort } = changes;
    return {
      entry: entry.seq,
      settlement: entry.refersTo!,
      day: entry.day!,
      currency,
      decimals,
      expected,
      counted,
      overShort,
    };
  });
}

/** An adjustment as programs get it. */
export function adjustmentToJson({ entry, recordedAt, body, carriedBy }: Adjustment): AdjustmentJson {
  return { ...body.changes, entry, recordedAt, by: body.by, carriedBy };
}
