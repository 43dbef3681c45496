import type { Dirent, Stats } from 'node:fs';
import { readdir, realpath, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { Finding } from '../findings/index.js';
import { decodeName, mayHaveLostBytes, onDisk } from './byte-name.js';
import { sayNotRead, sayUnreadable } from './file-problem.js';
import { pathOf, STANDARD_INPUT, type Workplace } from './workplace.js';

/** A file that was found, or why there is none to read. */
export interface FoundFile {
  /** As the user named it, or the folder it was found in; bytes that are no UTF-8 as `byte-name.ts` has them. */
  readonly file: string;
  readonly problem: Finding | null;
}

/** So many folders one in another are looked into: more than anybody makes by hand, fewer than any system's longest path. */
export const DEEPEST_FOLDER = 100;

const NO_FILE = 'it is no file but a pipe, socket or device';
const TOO_DEEP = `it lies more than ${DEEPEST_FOLDER} folders deep; move it further up`;

/**
 * Every file named, and every file in every folder named, up to {@link DEEPEST_FOLDER} deep: in the order given, folders by
 * name. Links are followed, each folder once, so that circles end. What can not be looked at comes with its problem; nothing
 * is thrown.
 *
 * @param skip - real paths of files and folders that are known to be something else, such as the office's sheets; they are
 *   passed over where a folder holds them
 */
export async function* walkFiles(
  names: readonly string[],
  workplace: Workplace,
  skip: ReadonlySet<string> = new Set(),
): AsyncGenerator<FoundFile> {
  const walk = new Walk(workplace, skip);
  for (const given of names) {
    if (given === STANDARD_INPUT) {
      yield { file: given, problem: null };
      continue;
    }
    const name = await findLostName(given, workplace);
    let found: Stats;
    try {
      found = await stat(onDisk(pathOf(name, workplace)));
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
    for await (const each of walk.filesIn(name)) {
      isEmpty = false;
      yield each;
    }
    if (isEmpty) yield { file: name, problem: sayNotRead(name, 'there is no file in this folder') };
  }
}

/** A folder that is being looked through. */
interface OpenFolder {
  readonly name: string;
  /** Its path without links. */
  readonly real: string;
  readonly entries: readonly NamedEntry[];
  /** How many of them were looked at. */
  done: number;
}

interface NamedEntry {
  readonly name: string;
  readonly entry: Dirent | Dirent<Buffer>;
}

class Walk {
  readonly #workplace: Workplace;
  readonly #skip: ReadonlySet<string>;
  readonly #seen = new Set<string>();

  constructor(workplace: Workplace, skip: ReadonlySet<string>) {
    this.#workplace = workplace;
    this.#skip = skip;
  }

  // A list of open folders, and no call within a call: folders can be nested deeper than calls.
  async *filesIn(folder: string): AsyncGenerator<FoundFile> {
    const open: OpenFolder[] = [];
    let next: string | null = folder;
    for (;;) {
      if (next !== null) {
        const opened = open.length >= DEEPEST_FOLDER ? sayNotRead(next, TOO_DEEP) : await this.#open(next);
        if (opened !== null && 'code' in opened) yield { file: next, problem: opened };
        else if (opened !== null) open.push(opened);
        next = null;
      }
      const at = open.at(-1);
      if (at === undefined) return;
      const each = at.entries[at.done++];
      if (each === undefined) {
        open.pop();
        continue;
      }
      const file = join(at.name, each.name);
      // Most are files, and of no further interest here: folders of a hundred thousand are walked.
      if (each.entry.isFile()) {
        if (!this.#skip.has(join(at.real, each.name))) yield { file, problem: null };
        continue;
      }
      const what = await this.#lookAt(file, join(at.real, each.name), each.entry);
      if (what === 'folder') next = file;
      else if (what !== null) yield what;
    }
  }

  /** A folder's entries in order; null when it was looked through already, or why it can not be. */
  async #open(name: string): Promise<OpenFolder | Finding | null> {
    const path = onDisk(pathOf(name, this.#workplace));
    try {
      const real = decodeName(await realpath(path, { encoding: 'buffer' }));
      if (this.#seen.has(real)) return null;
      this.#seen.add(real);
      return { name, real, entries: await listFolder(path), done: 0 };
    } catch (error) {
      return sayUnreadable(name, error);
    }
  }

  /**
   * What an entry is that is no plain file; null for one to be passed over.
   *
   * @param place - its path, without links but for itself
   */
  async #lookAt(file: string, place: string, entry: NamedEntry['entry']): Promise<FoundFile | 'folder' | null> {
    let target: Dirent | Dirent<Buffer> | Stats = entry;
    const path = onDisk(pathOf(file, this.#workplace));
    try {
      if (entry.isSymbolicLink()) target = await stat(path);
      const real = entry.isSymbolicLink() ? decodeName(await realpath(path, { encoding: 'buffer' })) : place;
      if (this.#skip.has(real)) return null;
    } catch (error) {
      return { file, problem: sayUnreadable(file, error) };
    }
    if (target.isDirectory()) return 'folder';
    return { file, problem: target.isFile() ? null : sayNotRead(file, NO_FILE) };
  }
}

async function listFolder(path: string | Buffer): Promise<NamedEntry[]> {
  const plain = await readdir(path, { withFileTypes: true });
  const entries: NamedEntry[] = plain.some(({ name }) => mayHaveLostBytes(name))
    ? (await readdir(path, { withFileTypes: true, encoding: 'buffer' })).map((entry) => ({
        name: decodeName(entry.name),
        entry,
      }))
    : plain.map((entry) => ({ name: entry.name, entry }));
  return entries.sort((a, b) => (a.name < b.name ? -1 : 1));
}

/** A name as it is on the disk, where it lost bytes on its way here and only one file can be meant. */
async function findLostName(name: string, workplace: Workplace): Promise<string> {
  const last = basename(name);
  if (!mayHaveLostBytes(last)) return name;
  try {
    const folder = onDisk(pathOf(dirname(name), workplace));
    const names = await readdir(folder, { encoding: 'buffer' });
    const meant = names.filter((each) => each.toString('utf8') === last);
    return meant.length === 1 ? join(dirname(name), decodeName(meant[0]!)) : name;
  } catch {
    return name;
  }
}
