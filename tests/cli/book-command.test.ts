import { describe, expect, it } from 'vitest';
import { makeFolder } from '../io/temporary-folder.js';
import { runBook } from './book-folder.js';
import { runProgram } from './run-program.js';

describe('book', () => {
  it('tells its commands, and what each takes', async () => {
    const { status, out } = await runProgram(['book', '--help']);
    expect(status).toBe(0);
    for (const name of ['head', 'verify', 'entries', 'proof', 'check-proof']) expect(out).toContain(`  ${name} `);
    for (const name of ['head', 'verify', 'entries', 'proof']) {
      expect((await runProgram(['book', name, '--help'])).out).toContain('--book <file>');
    }
  });

  it('refuses wrong use in one line', async () => {
    const errorOf = async (...argv: string[]) => {
      const { status, err } = await runProgram(['book', ...argv]);
      return `${status} ${err}`;
    };
    expect(await errorOf('heads')).toMatch(/^64 coilbook: unknown command 'heads'/);
    expect(await errorOf('head', '--what')).toMatch(/^64 coilbook: unknown option '--what'/);
    expect(await errorOf('check-proof')).toMatch(/^64 coilbook: missing required argument 'file'/);
  });

  it.each(['head', 'verify', 'entries', 'proof'])('%s says what a file is that is no book', async (name) => {
    const folder = makeFolder({ 'notes.txt': 'no book at all '.repeat(100), 'empty.db': '' });
    const argv = name === 'proof' ? [name, '0'] : [name];
    const other = await runBook(folder, [...argv, '--book', 'notes.txt']);
    expect([other.status, other.out]).toEqual([66, '']);
    expect(other.err).toMatch(/^coilbook: The book .*notes\.txt is not a book/);
    expect((await runBook(folder, [...argv, '--book', 'empty.db'])).err).toMatch(
      /empty\.db is empty: whatever was in it is gone/,
    );
    expect((await runBook(folder, [...argv, '--book', '.'])).err).toMatch(/it is a folder/);
  });
});
