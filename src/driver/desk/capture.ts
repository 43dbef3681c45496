import type { LocalDateTime } from '../../model/index.js';
import { writeDate, writeTime } from '../../model/index.js';
import type { Read } from '../../read/index.js';
import type { Roster } from '../../sheets/index.js';
import { type CheckedPart, readSentFile } from './check-sent-file.js';
import type { SentFile } from './messages.js';
import { groupFiles, readTogether, SMALL_FILE } from './read-together.js';

/** A capture that a person gave to the browser, with what is known of it so far. */
export interface Capture extends SentFile {
  parts: readonly CheckedPart[];
  /** The machines it holds reads of, by machine key. */
  readonly keys: Set<string>;
}

/** What is known of a capture besides its bytes. */
export interface Known {
  readonly roster: Roster;
  /** The file's own time, where the person says that the capture was taken then. */
  readonly fileTime: LocalDateTime | null;
}

/** A moment as a clock on the wall beside this device shows it. */
export function writeLocalTime(moment: Date): LocalDateTime {
  const date = writeDate(moment.getFullYear(), moment.getMonth() + 1, moment.getDate());
  return `${date}T${writeTime(moment.getHours(), moment.getMinutes(), moment.getSeconds())}`;
}

/** Captures in their order, each with its bytes where it is small: those are read many at a time. */
export async function* openEach<Item extends SentFile>(
  captures: readonly Item[],
): AsyncGenerator<readonly [capture: Item, known: Uint8Array | null]> {
  for (const group of groupFiles(captures, ({ file }) => file.size)) {
    const isSmall = group.every(({ file }) => file.size <= SMALL_FILE);
    const known = isSmall ? await readTogether(group.map(({ file }) => file)) : [];
    for (const [i, capture] of group.entries()) yield [capture, known[i] ?? null];
  }
}

/** All reads of captures, in their order. What can not be read has none. */
export async function readEach<Item extends SentFile>(
  captures: readonly Item[],
  onRead: (capture: Item, read: Read) => void,
): Promise<void> {
  for await (const [capture, known] of openEach(captures)) {
    await readSentFile(capture.path, capture.file, (read) => onRead(capture, read), { known });
  }
}
