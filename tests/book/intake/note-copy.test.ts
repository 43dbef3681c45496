import { renameSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { putEarliestFirst } from '../../../src/book/intake/note-copy.js';
import { Recall, readEarlierCopy } from '../../../src/book/recall/index.js';
import type { BookStore } from '../../../src/book/store/index.js';
import { isEarlier } from '../../../src/book/told/index.js';
import { Roster, readCapturesList } from '../../../src/sheets/index.js';
import { makeFolder } from '../../io/temporary-folder.js';
import { gather, openBook } from '../store/temporary-book.js';
import { captureOf, takeFolder } from './run-intake.js';

const LIST = [
  'file,received_at,reason,bag,filled',
  'a-again.dex,2026-11-24 23:05,scheduled,,no',
  'b.dex,2026-11-24 22:00,service,B7,yes',
].join('\n');
const capturesList = readCapturesList({ file: 'captures.csv', content: Buffer.from(LIST) }).rows;
const take = { roster: new Roster({ capturesList }) };
const FIRST = { receivedAt: '2026-11-24T22:00:00', reason: 'service', bag: 'B7', filled: true };

const recalled = async (book: BookStore, roster = take.roster) =>
  new Recall(book, { take: { roster } }).takeReads(await gather(book.reads()));

describe('a file that came twice', () => {
  it('counts as received when the first copy was, whatever their names', async () => {
    const book = await openBook();
    await takeFolder(book, makeFolder({ 'a-again.dex': captureOf('A1'), 'b.dex': captureOf('A1') }), { take });
    expect(await recalled(book)).toMatchObject([{ file: 'b.dex', ...FIRST }]);
  });

  it('does so too when the first copy comes to hand later, with its list or without one after that', async () => {
    const book = await openBook();
    const folder = makeFolder({ 'a-again.dex': captureOf('A1'), later: captureOf('A2') });
    await takeFolder(book, folder, { take });
    expect(await recalled(book)).toMatchObject([{ receivedAt: '2026-11-24T23:05:00' }, {}]);
    await takeFolder(book, makeFolder({ 'b.dex': captureOf('A1') }), { take });
    expect((await recalled(book))[0]).toMatchObject({ file: 'a-again.dex', ...FIRST });
    expect((await recalled(book, new Roster()))[0]).toMatchObject({ file: 'a-again.dex', ...FIRST });
    // The later one changes nothing any more.
    renameSync(join(folder, 'a-again.dex'), join(folder, 'c.dex'));
    await takeFolder(book, folder, { take });
    expect((await recalled(book))[0]).toMatchObject(FIRST);
  });
});

describe('putEarliestFirst', () => {
  it('changes the places of copies only', () => {
    const made = (sha256: string, ...times: (string | null)[]) => ({
      capture: { sha256 },
      reads: times.map((receivedAt) => ({ receivedAt })) as never[],
    });
    const waiting = [made('a', null), made('b', '2'), made('a', '9'), made('b', '3'), made('a', '1'), made('c')];
    const sorted = putEarliestFirst(waiting);
    expect(sorted.map((each) => waiting.indexOf(each))).toEqual([4, 1, 0, 3, 2, 5]);
  });
});

describe('isEarlier', () => {
  it('puts a known time before one that is not known', () => {
    expect(isEarlier('1', null)).toBe(true);
    expect(isEarlier(null, '1')).toBe(false);
    expect(isEarlier('1', '1')).toBe(false);
    expect(readEarlierCopy({ facts: { codes: ['x'] } })).toBeNull();
  });
});
