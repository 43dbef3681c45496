import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { ProofCheckJson } from '../../src/book/index.js';
import { bookJsonOf, makeBookFolder, runBook } from './book-folder.js';
import { expectReadable } from './run-program.js';

/** A folder without a book, with a proof of the hostile capture in it. */
async function makeProof(entry = '3') {
  const { folder, head } = await makeBookFolder();
  const proof = (await runBook(folder, ['proof', entry])).out;
  writeFileSync(join(folder, 'proof.json'), proof);
  return { folder, head, proof };
}

describe('book check-proof', () => {
  it('says in words that a proof holds, and of what it is', async () => {
    const { folder, head } = await makeProof();
    const outcome = await runBook(folder, ['check-proof', 'proof.json']);
    expect(outcome).toMatchObject({ status: 0, err: '' });
    expect(outcome.lines[0]).toMatch(/^The proof holds\. Entry 3 is in the book of 8 entries/);
    expect(outcome.out).toContain(head.root);
    expect(outcome.out).toContain('a\\x1B[2J\\x0Ab\\u{202E}.dex, 1 read');
    expect(outcome.out).toMatch(/Compare both\s+with\s+those\s+written\s+down/);
    expectReadable(outcome);
  });

  it('holds it against a head that was written down', async () => {
    const { folder, head, proof } = await makeProof('6');
    const check = async (size: number, root: string) => {
      const argv = ['check-proof', '-', '--json', '--size', String(size), '--root', root];
      const outcome = await runBook(folder, argv, { stdin: proof });
      return { status: outcome.status, ...bookJsonOf<ProofCheckJson>(outcome, 'book-proof-check')[0]! };
    };
    expect(await check(8, head.root)).toMatchObject({ status: 0, holds: true, noted: head });
    expect(await check(7, head.root)).toMatchObject({ status: 2, holds: false });
    const noted = await runBook(folder, ['check-proof', 'proof.json', '--size', '8', '--root', head.root]);
    expect(noted.out).not.toContain('Compare both');
  });

  it('checks that a book has grown out of an earlier one', async () => {
    const { folder } = await makeBookFolder();
    const { out } = await runBook(folder, ['proof', '--from', '5']);
    const outcome = await runBook(folder, ['check-proof', '-'], { stdin: out });
    expect(outcome.lines.join(' ')).toMatch(/^The proof holds\. The book of 8 entries .* all 5 entries/);
    expectReadable(outcome);
  });

  it.each([
    ['a changed entry', (proof: string) => proof.replace('route R7', 'route R8')],
    ['another number', (proof: string) => proof.replace('"entry":6', '"entry":5')],
    ['no JSON', () => 'PA1*11*150'],
    ['other JSON', () => '{"proof":"none"}'],
    ['nothing', () => ''],
  ])('ends with 2 for %s', async (_, change) => {
    const { folder, proof } = await makeProof('6');
    const outcome = await runBook(folder, ['check-proof', '-'], { stdin: change(proof) });
    expect(outcome.status).toBe(2);
    expect(outcome.lines[0]).toMatch(/^The proof does not hold\. /);
    expectReadable(outcome);
  });

  it('takes a byte-order mark before a proof for what it is', async () => {
    const { folder, proof } = await makeProof();
    expect((await runBook(folder, ['check-proof', '-'], { stdin: `\ufeff${proof}` })).status).toBe(0);
  });

  it('says so when a file can not be read', async () => {
    const { folder } = await makeProof();
    const { status, err } = await runBook(folder, ['check-proof', 'none.json']);
    expect([status, err]).toEqual([66, 'coilbook: none.json could not be read: there is no such file or folder.\n']);
  });
});
