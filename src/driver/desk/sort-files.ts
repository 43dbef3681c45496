import type { SentFile } from './messages.js';
import type { UsedSheet } from './office-desk.js';
import { comparePaths } from './order-files.js';
import { groupFiles, readTogether } from './read-together.js';
import { recogniseFile, TELLING_BYTES } from './recognise-file.js';

/** Files told apart. Of two sheets of one kind the later one counts. */
export interface SortedFiles {
  readonly captures: readonly SentFile[];
  readonly sheets: ReadonlyMap<UsedSheet, SentFile>;
  /** Sheets that are of no use here, such as counts of money, and those that another of their kind stands in for. */
  readonly unused: readonly SentFile[];
}

/**
 * Tell captures and office sheets apart, captures in the order in which they are checked.
 *
 * @param isWanted - asked between files; false ends the work with what was sorted so far
 */
export async function sortFiles(
  files: readonly SentFile[],
  isWanted: () => boolean,
  pause: () => Promise<void>,
): Promise<SortedFiles> {
  const captures: SentFile[] = [];
  const sheets = new Map<UsedSheet, SentFile>();
  const unused: SentFile[] = [];
  const ordered = [...files].sort((a, b) => comparePaths(a.path, b.path));
  for (const group of groupFiles(ordered, () => TELLING_BYTES)) {
    if (!isWanted()) break;
    const heads = await readTogether(group.map(({ file }) => file.slice(0, TELLING_BYTES)));
    // A file that can not be read is taken for a capture: checking it says why.
    const kinds = heads.map((head) => (head === null ? 'capture' : recogniseFile(head)));
    for (const [i, sent] of group.entries()) {
      const kind = kinds[i]!;
      if (kind === 'capture') captures.push(sent);
      else if (kind === 'other-sheet') unused.push(sent);
      else {
        const before = sheets.get(kind);
        if (before !== undefined) unused.push(before);
        sheets.set(kind, sent);
      }
    }
    await pause();
  }
  return { captures, sheets, unused };
}
