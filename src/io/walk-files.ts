import type { Dirent, Stats } from 'node:fs';
import { readdir, realpath, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Finding } from '../findings/index.js';
import { sayNotRead, sayUnreadable } from './file-problem.js';
import { pathOf, STANDARD_INPUT, type Workplace } from './workplace.js';

/** A file that was found, or why there is none to read. */
export interface FoundFile {
  /** As the user named it, or the folder it was found in. */
  readonly file: string;
  readonly problem: Finding | null;
}

const NO_FILE = 'it is no file but a pipe, socket or device';

/**
 * Every file named, and every file in every folder named, however deep: in the order given, folders by name. Links are
 * followed, each folder once, so that circles end. What can not be looked at comes with its problem; nothing is thrown.
 *
 * @param skip - real paths of files and folders that are known to be something else, such as the office's sheets; they are
 *   passed over where a folder holds them
 */
export async function* walkFiles(
  names: readonly string[],
  workplace: Workplace,
  skip: ReadonlySet<string> = new Set(),
): AsyncGenerator<FoundFile> {
  const seen = new Set<string>();
  for (const name of names) {
    if (name === STANDARD_INPUT) {
      yield { file: name, problem: null };
      continue;
    }
    let found: Stats;
    try {
      found = await stat(pathOf(name, workplace));
    } catch (error) {
      yield { file: name, problem: sayUnreadable(name, error) };
      continue;
    }
    // A pipe that is named outright is meant: shells make them.
    if (!found.isDirectory()) {
      yield { file: name, problem: null };
      continue;
    }
    let isEmpty = true;
    for await (const each of walkFolder(name, { workplace, skip, seen })) {
      isEmpty = false;
      yield each;
    }
    if (isEmpty) yield { file: name, problem: sayNotRead(name, 'there is no file in this folder') };
  }
}

interface Walk {
  readonly workplace: Workplace;
  readonly skip: ReadonlySet<string>;
  readonly seen: Set<string>;
}

async function* walkFolder(folder: string, walk: Walk): AsyncGenerator<FoundFile> {
  const path = pathOf(folder, walk.workplace);
  let entries: Dirent[];
  let real: string;
  try {
    real = await realpath(path);
    if (walk.seen.has(real)) return;
    walk.seen.add(real);
    entries = await readdir(path, { withFileTypes: true });
  } catch (error) {
    yield { file: folder, problem: sayUnreadable(folder, error) };
    return;
  }
  entries.sort((a, b) => (a.name < b.name ? -1 : 1));
  for (const entry of entries) {
    const file = join(folder, entry.name);
    // Most are files, and of no further interest here: folders of a hundred thousand are walked.
    if (entry.isFile()) {
      if (!walk.skip.has(join(real, entry.name))) yield { file, problem: null };
    } else {
      yield* walkEntry(file, join(real, entry.name), entry, walk);
    }
  }
}

/** @param place - its path, without links but for itself */
async function* walkEntry(file: string, place: string, entry: Dirent, walk: Walk): AsyncGenerator<FoundFile> {
  let target: Dirent | Stats = entry;
  const path = pathOf(file, walk.workplace);
  try {
    if (entry.isSymbolicLink()) target = await stat(path);
    if (walk.skip.has(entry.isSymbolicLink() ? await realpath(path) : place)) return;
  } catch (error) {
    yield { file, problem: sayUnreadable(file, error) };
    return;
  }
  if (target.isDirectory()) yield* walkFolder(file, walk);
  else yield { file, problem: target.isFile() ? null : sayNotRead(file, NO_FILE) };
}
