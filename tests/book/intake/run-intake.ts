import { type Intake, type TakeInOptions, takeIn } from '../../../src/book/intake/index.js';
import type { BookStore, Entry } from '../../../src/book/store/index.js';
import { Roster } from '../../../src/sheets/index.js';
import { workIn } from '../../io/temporary-folder.js';
import { buildCapture } from '../../support/build-capture.js';
import { changeSegments } from '../../support/check-cases.js';
import { gather, RECORDED_AT } from '../store/temporary-book.js';

/** The day of all runs in these tests. */
export const DAY = '2026-11-24';

/** Take a folder into a book. Files are taken to be old, so that they are not read again. */
export function takeFolder(book: BookStore, folder: string, options: Partial<TakeInOptions> = {}): Promise<Intake> {
  return takeIn(book, ['.'], { ...intakeOptions(folder), ...options });
}

export const intakeOptions = (folder: string): TakeInOptions => ({
  day: DAY,
  recordedAt: () => RECORDED_AT,
  take: { roster: new Roster() },
  workplace: workIn(folder),
  now: () => Number.POSITIVE_INFINITY,
});

/** A sound capture of a machine, as it stands after so many vends. */
export const captureOf = (asset: string, vends = 10): Uint8Array =>
  buildCapture(
    changeSegments({
      put: [`ID1*SN${asset}*MODEL-A*1.0***${asset}*6*1`, `ID5*261124*${1000 + vends}`],
      add: [`PA1*13*150`, `PA2*${vends}*${150 * vends}*2*300`],
    }),
  );

/** What an entry of a file says. */
export interface FileEntry {
  readonly seq: number;
  readonly kind: string;
  readonly day: string | null;
  readonly file: string;
  readonly sha256: string;
  readonly size: number;
  readonly isKept: boolean;
  readonly reads: number;
  readonly facts: Readonly<Record<string, unknown>>;
}

export async function fileEntries(book: BookStore): Promise<FileEntry[]> {
  return (await gather(book.entries())).map(readEntry);
}

const readEntry = ({ seq, kind, day, body }: Entry): FileEntry => ({
  seq,
  kind,
  day,
  ...(JSON.parse(body) as Omit<FileEntry, 'seq' | 'kind' | 'day'>),
});
