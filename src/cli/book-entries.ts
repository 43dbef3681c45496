import type { z } from 'zod';
import { type BookEntryJson, type BookStore, describeEntry, type Entry, type EntryQuery } from '../book/index.js';
import { hangText, printable, writeJson } from '../index.js';
import { bookEntriesShape } from './book-option-shapes.js';
import { EXIT } from './exit-status.js';
import { withBook } from './open-book.js';
import { readOptions } from './option-shapes.js';
import { Output } from './output.js';
import { styleFor } from './printer.js';
import type { Terminal } from './terminal.js';

type Options = z.infer<typeof bookEntriesShape>;

/** `book entries`: what is recorded, entry by entry, each printed as soon as it is read. */
export async function runBookEntries(raw: Record<string, unknown>, terminal: Terminal): Promise<number> {
  const options = readOptions(bookEntriesShape, raw);
  return withBook({ book: options.book, isReadOnly: true }, terminal, async (book) => {
    const output = new Output(terminal.stdout);
    if (options.json) {
      for await (const entry of book.entries(queryOf(options))) await output.write(`${writeJson(toJson(entry))}\n`);
    } else {
      await writeList(book, options, output, terminal);
    }
    await output.flush();
    return EXIT.ok;
  });
}

function queryOf({ kind, day }: Options): EntryQuery {
  return {
    ...(kind === undefined ? {} : { kinds: kind }),
    ...(day === undefined ? {} : { dayFrom: day, dayTo: day }),
  };
}

async function writeList(book: BookStore, options: Options, output: Output, terminal: Terminal): Promise<void> {
  const style = styleFor(terminal);
  const { size } = await book.head();
  const width = Math.max(5, String(size).length);
  await output.write(`${size} ${size === 1 ? 'entry' : 'entries'} in the book. Times are UTC.\n`);
  let shown = 0;
  for await (const entry of book.entries(queryOf(options))) {
    if (shown === 0) await output.write(`\n${style.dim(layHeading(width))}\n`);
    shown++;
    await output.write(`${layEntry(entry, width).join('\n')}\n`);
  }
  const isChosen = options.kind !== undefined || options.day !== undefined;
  if (isChosen) await output.write(`${shown === 0 ? '' : '\n'}${shown === 0 ? 'None' : shown} of them as asked for.\n`);
}

const KIND_WIDTH = 'settlement-closed'.length;

function layHeading(width: number): string {
  return `${'entry'.padStart(width)}  ${'recorded'.padEnd(16)}  ${'kind'.padEnd(KIND_WIDTH)}  of`;
}

function layEntry(entry: Entry, width: number): string[] {
  const at = printable(entry.recordedAt, 30).replace('T', ' ').slice(0, 16).padEnd(16);
  const label = `${String(entry.seq).padStart(width)}  ${at}  ${entry.kind.padEnd(KIND_WIDTH)}  `;
  return hangText(label, printable(describeEntry(entry), 300));
}

function toJson(entry: Entry): BookEntryJson {
  const { seq, kind, recordedAt, subject, day, key, refersTo } = entry;
  return {
    entry: seq,
    recordedAt,
    kind,
    of: describeEntry(entry),
    subject,
    day,
    key,
    refersTo,
    body: JSON.parse(entry.body) as unknown,
  };
}
