import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import type { Finding, Roster } from '../index.js';
import type { CountedBags } from './day-sheets.js';

/** What the files of a day's folder were made from, so that they need not be made again from the same. */
const madeFromShape = z.object({
  day: z.string(),
  book: z.object({ size: z.number(), root: z.string() }),
  /** How often what the tables tell had come to be otherwise; see `ToldDay`. */
  changes: z.number().default(0),
  /** Whether pages were made beside the tables. */
  pages: z.boolean().default(true),
  /** SHA-256 over sheets and options. */
  sheets: z.string(),
  version: z.string(),
  /** The exit status of the run that made them. */
  status: z.number(),
  answer: z.string(),
});

/** See {@link madeFromShape}. */
export type MadeFrom = z.infer<typeof madeFromShape>;
/** What a folder would be made from, before it is known what comes of it. */
export type DayOrigin = Omit<MadeFrom, 'status' | 'answer'>;

/** Its name in the folder. */
export const MADE_FROM = 'made-from.json';

/** What the folder of a day holds. */
export const OUT_FILES = [
  'sales.csv',
  'cash.csv',
  'settlement.csv',
  'attention.csv',
  'refill.csv',
  'day.json',
  MADE_FROM,
] as const;

/** What the folder says that its files were made from; null when it says nothing that can be read. */
export async function readMadeFrom(folder: string): Promise<MadeFrom | null> {
  try {
    return madeFromShape.safeParse(JSON.parse(await readFile(join(folder, MADE_FROM), 'utf8'))).data ?? null;
  } catch {
    return null;
  }
}

/** Whether a folder made from the one is what would be made from the other. */
export function isMadeFrom(made: MadeFrom | null, now: DayOrigin): made is MadeFrom {
  return (
    made !== null &&
    made.day === now.day &&
    made.sheets === now.sheets &&
    made.version === now.version &&
    made.changes === now.changes &&
    made.book.size === now.book.size &&
    made.book.root === now.book.root
  );
}

/** All that a day is made from besides the book. */
export interface DaySources {
  readonly roster: Roster;
  readonly counts: CountedBags | null;
  readonly findings: readonly Finding[];
  /** Options by which captures are judged. */
  readonly options: object;
}

/** SHA-256 over what a day is made from besides the book, lower-case hex. */
export function hashSources({ roster, counts, findings, options }: DaySources): string {
  const hash = createHash('sha256');
  const add = (value: unknown): void => {
    hash.update(`${JSON.stringify(value)}\n`);
  };
  const { machines, plan, capturesList, profiles } = roster.books;
  for (const rows of [machines, plan, capturesList, profiles, counts?.rows ?? [], counts?.findings ?? [], findings]) {
    add(rows.length);
    for (const row of rows) add(row);
  }
  add([counts?.settle ?? null, options]);
  return hash.digest('hex');
}
