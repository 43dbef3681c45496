import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect } from 'vitest';
import { type BookHead, type BookSchemaName, type BookStore, makeBookSchema } from '../../src/book/index.js';
import { makeCapture, makeCount, openBook, RECORDED_AT, temporaryFolder } from '../book/store/temporary-book.js';
import { type Outcome, runProgram, type Surroundings } from './run-program.js';

/** A file name that would clear the screen and end a line. */
export const HOSTILE_NAME = 'a\u001b[2J\nb\u202e.dex';

/** Entries of every kind, with names that do no harm. */
export async function fill(book: BookStore): Promise<void> {
  await book.recordCaptures([
    makeCapture('PA1*11*150\r\nPA2*7*1050\r\n', { name: 'v101.dex', day: '2026-11-24' }),
    makeCapture('PA1*12*200\r\nPA2*9*1800\r\n', { name: 'v102.dex', day: '2026-11-24' }),
    makeCapture('a picture', {
      kind: 'set-aside',
      name: 'photo.jpg',
      reads: [],
      day: '2026-11-25',
      facts: { message: 'Nothing in this file is a capture.' },
    }),
    makeCapture('PA1*13*200\r\nPA2*1*200\r\n', { name: HOSTILE_NAME, day: '2026-11-25' }),
  ]);
  await book.recordEntries([
    makeCount('B1'),
    makeCount('B1 again', { kind: 'count-corrected', refersTo: 4, body: { reason: 'counted twice' } }),
    {
      kind: 'settlement-closed',
      recordedAt: RECORDED_AT,
      subject: 'route R7',
      day: '2026-11-24',
      body: { totals: { coins: 1250 } },
    },
    { kind: 'adjustment', recordedAt: RECORDED_AT, subject: 'route R7', refersTo: 6, body: { coins: -50 } },
  ]);
}

/** A book with 8 entries under the usual name, in a folder of its own. */
export async function makeBookFolder(): Promise<{ folder: string; path: string; head: BookHead }> {
  const folder = temporaryFolder();
  const path = join(folder, 'coilbook.db');
  const book = await openBook(path);
  await fill(book);
  const head = await book.head();
  return { folder, path, head };
}

/** Run a command of the book in a folder. */
export const runBook = (folder: string, argv: readonly string[], around: Surroundings = {}): Promise<Outcome> =>
  runProgram(['book', ...argv], { cwd: folder, ...around });

/** The JSON that a run printed, each line held against its schema. */
export function bookJsonOf<T>({ lines }: Outcome, schema: BookSchemaName): T[] {
  const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(makeBookSchema(schema));
  return lines.map((line) => {
    const value: unknown = JSON.parse(line);
    expect(validate(value) ? null : [validate.errors, line.slice(0, 300)]).toBeNull();
    return value as T;
  });
}
