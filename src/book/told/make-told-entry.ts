import type { LocalDate } from '../../model/index.js';
import type { NumberedMachine } from '../../sheets/index.js';
import type { EntryToRecord, JsonValue } from '../store/index.js';
import type { ToldHistory } from './told-history.js';
import type { LateRow, NumberedRow, ToldBody } from './told-shapes.js';

/** A sheet that was given: what it is, its name, and the SHA-256 of its bytes, lower-case hex. */
export type ToldSheet = ToldBody['sheets'][number];

/** What is told now. What is not given is as it was told last. */
export interface ToldNow {
  readonly day: LocalDate | null;
  readonly recordedAt: string;
  readonly sheets: readonly ToldSheet[];
  /** The roster's machines; null where none was given, so that what the book knows holds. */
  readonly given?: readonly NumberedMachine[] | null;
  readonly isFileTimeReceived?: boolean;
  /** What is told of files that are in the book. */
  readonly captures?: readonly LateRow[];
  /** Machines that the book knows, of which no entry tells yet. */
  readonly knownBefore: readonly NumberedMachine[];
}

/** The entry that records what is told now, after all that was told before. */
export function makeToldEntry(history: ToldHistory, now: ToldNow): EntryToRecord {
  const { day, recordedAt, sheets, captures = [], knownBefore } = now;
  const { last } = history;
  const given = now.given === undefined ? (last?.given ?? null) : (now.given?.map(toNumbered) ?? null);
  const body: ToldBody = {
    sheets: [...sheets],
    roster: given === null ? 'remembered' : (history.findRoster(given) ?? [...given]),
    ...(last === null && knownBefore.length > 0 ? { knownBefore: knownBefore.map(toNumbered) } : {}),
    isFileTimeReceived: now.isFileTimeReceived ?? last?.body.isFileTimeReceived ?? false,
    captures: [...captures],
  };
  return { kind: 'told', recordedAt, day, body: body as unknown as JsonValue };
}

/** A machine as an entry has it. */
export const toNumbered = ({ machine, asset, serial }: NumberedMachine): NumberedRow => [machine, asset, serial];
