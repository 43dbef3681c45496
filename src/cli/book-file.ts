import { createHash } from 'node:crypto';
import { writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { readFileEntry } from '../book/recall/index.js';
import { bookFileShape } from './book-option-shapes.js';
import { EXIT, UsageError } from './exit-status.js';
import { withBook } from './open-book.js';
import { readOptions } from './option-shapes.js';
import type { Terminal } from './terminal.js';

/** `book file`: the bytes of a file as they came, held against the hash that the entry records. */
export async function runBookFile(entry: string, raw: Record<string, unknown>, terminal: Terminal): Promise<number> {
  const options = readOptions(bookFileShape, raw);
  if (!/^\d{1,15}$/.test(entry)) throw new UsageError(`expected the number of an entry, not "${entry}"`);
  return withBook({ book: options.book, isReadOnly: true }, terminal, async (book) => {
    const found = await book.entry(Number(entry));
    if (found === null) throw new UsageError(`there is no entry ${entry}`);
    if (found.kind !== 'capture-taken' && found.kind !== 'set-aside') {
      throw new UsageError(`entry ${entry} is of no file: it is a ${found.kind}`);
    }
    const { sha256, isKept } = readFileEntry(found);
    if (!isKept) throw new UsageError(`the file of entry ${entry} was too large to be kept; its hash is ${sha256}`);
    const parts: Uint8Array[] = [];
    const hash = createHash('sha256');
    for await (const part of book.partsOf(sha256)) {
      hash.update(part);
      parts.push(part);
    }
    if (hash.digest('hex') !== sha256) {
      terminal.stderr.write(`coilbook: the file kept with entry ${entry} is not the one it records: verify the book\n`);
      return EXIT.faults;
    }
    const bytes = Buffer.concat(parts);
    if (options.out === undefined) terminal.stdout.write(bytes);
    else await writeFile(resolve(terminal.cwd, options.out), bytes, { flag: 'wx' });
    return EXIT.ok;
  });
}
