import { type BookProof, type BookStore, makeConsistencyProof, makeInclusionProof } from '../book/index.js';
import { writeJson } from '../index.js';
import { bookProofShape } from './book-option-shapes.js';
import { EXIT, UsageError } from './exit-status.js';
import { withBook } from './open-book.js';
import { readOptions } from './option-shapes.js';
import { printLines } from './print-lines.js';
import type { Terminal } from './terminal.js';

/** `book proof`: that an entry is in the book, or that the book has grown out of what it was; as JSON, for anyone to check. */
export async function runBookProof(
  entry: string | undefined,
  raw: Record<string, unknown>,
  terminal: Terminal,
): Promise<number> {
  const options = readOptions(bookProofShape, raw);
  const { book: file, from } = options;
  if ((entry === undefined) === (from === undefined)) {
    throw new UsageError('name either the number of an entry, or --from with an earlier size of the book');
  }
  return withBook({ book: file, isReadOnly: true }, terminal, async (book) => {
    const proof = from === undefined ? await proveEntry(book, entry!) : await proveGrowth(book, from);
    await printLines([writeJson(proof)], terminal);
    return EXIT.ok;
  });
}

async function proveEntry(book: BookStore, entry: string): Promise<BookProof> {
  const { size } = await book.head();
  if (!/^\d{1,15}$/.test(entry)) throw new UsageError(`expected the number of an entry, not "${entry}"`);
  if (Number(entry) >= size) throw new UsageError(`there is no entry ${entry}: ${describeSize(size)}`);
  return makeInclusionProof(book, Number(entry));
}

async function proveGrowth(book: BookStore, from: number): Promise<BookProof> {
  const { size } = await book.head();
  if (from > size) throw new UsageError(`the book never had ${from} entries: ${describeSize(size)}`);
  return makeConsistencyProof(book, from);
}

const describeSize = (size: number): string =>
  size === 0 ? 'the book is empty' : `the book has ${size}, numbered from 0`;
