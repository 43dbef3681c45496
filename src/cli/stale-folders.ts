import { access } from 'node:fs/promises';
import { dirname, join, relative, resolve } from 'node:path';
import type { BookStore } from '../book/index.js';
import { hangText, type LocalDate, plural, printable, type StaleDay } from '../index.js';
import { readMadeFrom } from './made-from.js';
import type { Terminal } from './terminal.js';

/** A day of which tables lie in a folder and would come out otherwise now. */
export interface StaleFolder extends StaleDay {
  /** As it is named from the working folder; null where the tables do not lie there any more. */
  readonly folder: string | null;
  /** Whether pages lie beside the tables. */
  readonly hasPages: boolean;
}

/** Which book, and where it is named from. */
export interface BookPlace {
  readonly file: string;
  readonly terminal: Pick<Terminal, 'cwd'>;
}

/** Keep in the book where the tables of a day were written, from the book's own folder on: both may be moved together. */
export async function rememberFolder(
  book: BookStore,
  day: LocalDate,
  folder: string,
  { file, terminal: { cwd } }: BookPlace,
): Promise<void> {
  const { rememberTables } = await import('../book/run/index.js');
  await rememberTables(book, day, relative(resolve(cwd, dirname(file)), resolve(cwd, folder)));
}

/**
 * The days whose tables would come out otherwise than they were written, by what each folder says that it was made from. A day
 * whose tables do not lie where they were written is listed where it changed since `before` was taken, for whoever has taken
 * them elsewhere.
 *
 * @param before - how often each day had changed; see {@link countsOfChanges}
 */
export async function findStaleFolders(
  book: BookStore,
  { file, terminal: { cwd } }: BookPlace,
  before: ReadonlyMap<LocalDate, number>,
): Promise<StaleFolder[]> {
  const { listChangedDays } = await import('../book/run/index.js');
  const stale: StaleFolder[] = [];
  for (const { day, folders, changes } of await listChangedDays(book)) {
    let isThere = false;
    for (const kept of folders) {
      const folder = join(dirname(file), kept) || '.';
      const made = await readMadeFrom(resolve(cwd, folder));
      if (made?.day !== day || !(await isFile(resolve(cwd, folder, 'sales.csv')))) continue;
      isThere = true;
      if (made.changes !== changes) stale.push({ day, folder, hasPages: made.pages });
    }
    if (!isThere && changes !== (before.get(day) ?? 0)) stale.push({ day, folder: null, hasPages: false });
  }
  return stale;
}

/** How often each day that has tables came to be told otherwise so far. */
export async function countsOfChanges(book: BookStore): Promise<ReadonlyMap<LocalDate, number>> {
  const { listChangedDays } = await import('../book/run/index.js');
  return new Map((await listChangedDays(book)).map(({ day, changes }) => [day, changes]));
}

async function isFile(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}

/** Say which tables are to be made again, a line each, and how; nothing where there are none. */
export function layStaleFolders(stale: readonly StaleDay[]): string[] {
  const [earliest] = stale.map(({ day }) => day).sort();
  if (earliest === undefined) return [];
  const days = plural(new Set(stale.map(({ day }) => day)).size, 'other day');
  const there = stale.some(({ folder }) => folder !== null);
  const how = there ? ` Make them again: coilbook report --since ${earliest}` : '';
  return [
    ...hangText('  ', `What came late or was corrected changes the tables of ${days}.${how}`),
    ...stale.flatMap(({ day, folder }) =>
      hangText(
        '    ',
        folder === null
          ? `${day}: its tables are not where they were written. Make them again with coilbook day --day ${day} --out and a folder.`
          : `${day}: ${printable(folder, 400)}`,
      ),
    ),
  ];
}
