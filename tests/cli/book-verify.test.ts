import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type BookVerificationJson, openSqliteBook } from '../../src/book/index.js';
import { layVerification } from '../../src/cli/book-verify.js';
import { PLAIN_STYLE } from '../../src/index.js';
import { makeCapture, openBook, temporaryFolder, withDatabase } from '../book/store/temporary-book.js';
import { bookJsonOf, fill, makeBookFolder, runBook } from './book-folder.js';
import { expectReadable } from './run-program.js';

const verify = async (folder: string, ...argv: string[]) => {
  const outcome = await runBook(folder, ['verify', '--json', ...argv]);
  const [verified] = bookJsonOf<BookVerificationJson>(outcome, 'book-verification');
  return { ...outcome, verified: verified! };
};

/** SQLite's page, as the books of these tests have it. */
const PAGE = 4096;

async function isReadable(path: string, number: number): Promise<boolean> {
  const book = await openBook(path, { isReadOnly: true });
  try {
    const entry = await book.entry(number);
    const { blob } = await book.piecesOf(number);
    return entry !== null && (blob === null || (await book.bytesOf(blob.sha256)) !== null);
  } catch {
    return false;
  }
}

/** A book that is closed, so that all of it stands in its one file. */
async function makeClosedBook(extra = 0): Promise<{ folder: string; path: string }> {
  const folder = temporaryFolder();
  const path = join(folder, 'coilbook.db');
  const book = await openSqliteBook(path, { create: true });
  await fill(book);
  for (let i = 0; i < extra; i++) await book.recordCaptures([makeCapture(`${i} `.repeat(2000), { name: `x${i}.dex` })]);
  await book.close();
  return { folder, path };
}

describe('book verify', () => {
  it('says first that the book is whole, and what that rests on', async () => {
    const { folder, head } = await makeBookFolder();
    const outcome = await runBook(folder, ['verify']);
    expect(outcome).toMatchObject({ status: 0, err: '' });
    expect(outcome.lines[0]).toBe('The book is whole: 8 entries, with all files and reads.');
    expect(outcome.out).toContain(head.root);
    expect(outcome.out).toContain('held against itself only');
    expectReadable(outcome);
    expect((await verify(folder)).verified).toEqual({
      verdict: 'whole',
      head,
      noted: null,
      fault: null,
      missingGuards: [],
      alteredGuards: [],
      unknownGuards: [],
      matching: { reads: 0, before: 4, differences: [] },
      workedOut: null,
      advice: null,
    });
  });

  it('holds the book against a head that was written down', async () => {
    const { folder, head, path } = await makeBookFolder();
    const noted = ['--size', String(head.size), '--root', head.root.toUpperCase()];
    expect((await runBook(folder, ['verify', ...noted])).lines[0]).toMatch(/, as noted\.$/);
    await (await openBook(path)).recordCaptures([makeCapture('later')]);
    const grown = await runBook(folder, ['verify', ...noted]);
    expect([grown.status, grown.lines[0]]).toEqual([
      0,
      'The book is whole: 9 entries, with all files and reads, the first 8 as noted.',
    ]);
    const other = await runBook(folder, ['verify', '--size', '8', '--root', '0'.repeat(64)]);
    expect(other.status).toBe(2);
    expect(other.lines[0]).toMatch(/^The book is not whole\. This is not the book that was noted/);
    expectReadable(other);
  });

  it('finds a byte of a file changed behind its back, and names the entry', async () => {
    const { folder, path } = await makeClosedBook();
    // In the page of the database where the bytes lie as they came.
    const bytes = readFileSync(path);
    const at = bytes.indexOf('PA2*9*1800');
    expect(at).toBeGreaterThan(0);
    bytes[at + 4] = bytes[at + 4]! ^ 1;
    writeFileSync(path, bytes);
    const outcome = await runBook(folder, ['verify']);
    expect(outcome.status).toBe(2);
    expect(outcome.lines[0]).toBe('The book is not whole. The file kept with entry 1 is not the one it records.');
    expect(outcome.out).toMatch(/of {10}capture-taken: v102\.dex, 1 read\n/);
    expect(outcome.out).toContain('fits up to  entry 0');
    expect(outcome.out).toContain('Keep the book');
    expectReadable(outcome);
    expect((await verify(folder)).verified).toMatchObject({
      verdict: 'broken',
      fault: { kind: 'bytes', entry: 1, entryKind: 'capture-taken', of: 'v102.dex, 1 read' },
      head: { size: 1 },
    });
  });

  it('says of any damage that the book is not whole, and names an entry only if that one can not be read', async () => {
    const { folder, path } = await makeClosedBook(40);
    const whole = readFileSync(path);
    const copy = join(folder, 'copy.db');
    const kinds = new Set<string>();
    for (let page = 0; page * PAGE < whole.length; page++) {
      const bytes = Buffer.from(whole);
      bytes.fill(0xa5, page * PAGE + (page === 0 ? 100 : 0), page * PAGE + 500);
      writeFileSync(copy, bytes);
      const { status, verified } = await verify(folder, '--book', 'copy.db');
      expect(status).toBe(verified.verdict === 'whole' ? 0 : 2);
      const { kind, entry } = verified.fault ?? { kind: 'none', entry: null };
      kinds.add(`${kind} ${entry === null ? 'somewhere' : 'at an entry'}`);
      if (kind === 'unreadable' && entry !== null) expect(await isReadable(copy, entry)).toBe(false);
    }
    expect([...kinds].sort()).toEqual(
      // Of deflated bytes some are changed most cannot be inflated any more.
      expect.arrayContaining(['none somewhere', 'unreadable at an entry', 'unreadable somewhere']),
    );
  });

  it('takes guards that were taken out for a doubt', async () => {
    const { folder, path } = await makeBookFolder();
    await withDatabase(path, (database) => database.exec('DROP TRIGGER entry_is_not_changed'));
    const outcome = await runBook(folder, ['verify']);
    expect(outcome.status).toBe(1);
    expect(outcome.lines[0]).toMatch(/^The book fits: 8 entries/);
    expect(outcome.out).toMatch(/guards gone +entry_is_not_changed/);
    expectReadable(outcome);
    expect((await verify(folder)).verified).toMatchObject({ verdict: 'doubtful', fault: null });
  });

  it('names hostile files so that they steer no terminal', async () => {
    const { folder, path } = await makeBookFolder();
    await withDatabase(path, (database) =>
      database.exec("DROP TRIGGER blob_is_not_changed; UPDATE blob SET bytes = x'00', packing = 0 WHERE entry = 3"),
    );
    const outcome = await runBook(folder, ['verify'], { isTTY: false });
    expect(outcome.out).toContain('a\\x1B[2J\\x0Ab\\u{202E}.dex');
    expectReadable(outcome);
  });

  it('tells a person at a terminal how far it has come', async () => {
    const { folder } = await makeBookFolder();
    const { err, out } = await runBook(folder, ['verify'], { isTTY: true, tick: 700 });
    expect(err).toContain('of 8 entries …');
    expect(err.endsWith('\r\u001b[K')).toBe(true);
    expect(out).toMatch(/^\u001b\[1mThe book is whole/);
  });

  it('wants size and root together, and in their form', async () => {
    const { folder, head } = await makeBookFolder();
    const errorOf = async (...argv: string[]) => {
      const { status, err } = await runBook(folder, ['verify', ...argv]);
      return `${status} ${err}`;
    };
    expect(await errorOf('--size', '8')).toBe('64 coilbook: --size and --root can only be given together\n');
    expect(await errorOf('--root', head.root)).toMatch(/^64 /);
    expect(await errorOf('--size', '-1', '--root', head.root)).toMatch(/^64 .*--size: expected a number of entries/);
    expect(await errorOf('--size', '8', '--root', 'abc')).toMatch(/^64 .*--root: expected 64 hex digits/);
  });
});

describe('layVerification', () => {
  it('says of a book without entries, or with one, what it is', () => {
    const head = { size: 0, root: 'e3b0' };
    const guards = { missingGuards: [], alteredGuards: [], unknownGuards: [], matching: null, workedOut: null };
    const verified = { verdict: 'whole', head, noted: null, fault: null, ...guards, advice: null } as const;
    expect(layVerification({ ...verified, ...guards }, PLAIN_STYLE)[0]).toBe('The book is whole: it has no entries.');
    const one = { ...verified, head: { size: 1, root: 'e3b0' }, ...guards };
    expect(layVerification(one, PLAIN_STYLE)[0]).toBe('The book is whole: 1 entry, with all files and reads.');
    const fault = {
      kind: 'unreadable',
      entry: 0,
      entryKind: null,
      of: null,
      message: 'Entry 0 can not be read.',
    } as const;
    const lines = layVerification({ ...verified, verdict: 'broken', fault, ...guards }, PLAIN_STYLE);
    expect(lines[2]).toBe('  fits up to  no entry');
  });
});
