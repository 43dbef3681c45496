import { appendFileSync, existsSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { isSettled, lookAtFile } from '../../../src/book/intake/file-facts.js';
import type { TakeInOptions } from '../../../src/book/intake/index.js';
import { verifyBook } from '../../../src/book/verify-book.js';
import { checkRead } from '../../../src/checks/index.js';
import { Roster } from '../../../src/sheets/index.js';
import { makeFolder } from '../../io/temporary-folder.js';
import { joinCaptures } from '../../support/build-capture.js';
import { gather, openBook, RECORDED_AT, sha256Of } from '../store/temporary-book.js';
import { captureOf, fileEntries, takeFolder } from './run-intake.js';

const LEFT = 'a.dex could not be read: it changed while it was read; the next run takes it in.';
/** So that a small file is read piece by piece. */
const IN_PIECES = { longestWhole: 100 };
const MORE = captureOf('A2');

describe('a file that changes while it is read', () => {
  it('is read again', async () => {
    const folder = makeFolder({ 'a.dex': captureOf('A1') });
    const grown = joinCaptures(captureOf('A1'), MORE);
    const onFile = (): void => appendFileSync(join(folder, 'a.dex'), MORE);
    const book = await openBook();
    expect(await takeFolder(book, folder, { onFile })).toMatchObject({ taken: 1, reads: 2, findings: [] });
    expect(await fileEntries(book)).toMatchObject([{ sha256: sha256Of(grown), size: grown.length }]);
    const second = makeFolder({ 'a.dex': captureOf('A1') });
    const grow = (): void => appendFileSync(join(second, 'a.dex'), MORE);
    const other = await openBook();
    expect(await takeFolder(other, second, { onFile: grow, limits: IN_PIECES })).toMatchObject({ taken: 1, reads: 2 });
  });

  // What the Linux kernel shows under /proc has a size of nothing, and yet bytes.
  it.skipIf(!existsSync('/proc/self/status'))('is left for the next run when it never stands still', async () => {
    const folder = makeFolder();
    symlinkSync('/proc/self/status', join(folder, 'a.dex'));
    const book = await openBook();
    const { findings, ...counts } = await takeFolder(book, folder);
    expect(counts).toMatchObject({ files: 1, leftForNextTime: 1, unread: 0, taken: 0 });
    expect(findings.map(({ message }) => message)).toEqual([LEFT]);
    expect(await book.head()).toMatchObject({ size: 0 });
    rmSync(join(folder, 'a.dex'));
    writeFileSync(join(folder, 'a.dex'), MORE);
    expect(await takeFolder(book, folder)).toMatchObject({ taken: 1, leftForNextTime: 0 });
  });

  it.each([
    ['before its bytes are stored', 1],
    ['each time before its bytes are stored', 9],
  ])('%s leaves nothing half recorded', async (_, times) => {
    const folder = makeFolder({ 'a.dex': captureOf('A1'), 'b.dex': captureOf('A3') });
    const book = await openBook();
    let changes = 0;
    const recordedAt = (): string => {
      if (changes++ < times) appendFileSync(join(folder, 'a.dex'), MORE);
      return RECORDED_AT;
    };
    const { findings, ...counts } = await takeFolder(book, folder, { recordedAt, limits: IN_PIECES });
    if (times === 1) expect(counts).toMatchObject({ taken: 2, leftForNextTime: 0, reads: 3 });
    else expect(counts).toMatchObject({ taken: 1, leftForNextTime: 1, reads: 1 });
    expect(findings.map(({ message }) => message)).toEqual(times === 1 ? [] : [LEFT]);
    expect((await fileEntries(book)).length).toBe(counts.taken);
    expect((await verifyBook(book)).fault).toBeNull();
  });

  it('between its bytes and its reads leaves nothing half recorded', async () => {
    // Longer than one piece, so that its end is read when its first read was made.
    const rest = Buffer.from(`${'x'.repeat(1_200_000)}\r\n`);
    const folder = makeFolder({ 'a.dex': joinCaptures(captureOf('A1'), captureOf('A4'), rest) });
    const book = await openBook();
    let changes = 0;
    const check: NonNullable<TakeInOptions['take']['check']> = (read, context) => {
      if (changes++ === 0) appendFileSync(join(folder, 'a.dex'), MORE);
      return checkRead(read, context);
    };
    const take = { roster: new Roster(), check };
    expect(await takeFolder(book, folder, { take, limits: IN_PIECES })).toMatchObject({ taken: 1, reads: 3 });
    expect((await gather(book.reads())).map(({ machine }) => machine)).toEqual(['asset A1', 'asset A4', 'asset A2']);
    expect((await verifyBook(book)).fault).toBeNull();
  });

  it('and vanishes then is said to have', async () => {
    const folder = makeFolder({ 'a.dex': captureOf('A1') });
    const book = await openBook();
    const recordedAt = (): string => {
      rmSync(join(folder, 'a.dex'));
      return RECORDED_AT;
    };
    const { findings, ...counts } = await takeFolder(book, folder, { recordedAt, limits: IN_PIECES });
    expect(counts).toMatchObject({ files: 1, unread: 1 });
    expect(findings[0]!.message).toBe('a.dex could not be read: there is no such file or folder.');
    expect(await book.head()).toMatchObject({ size: 0 });
  });
});

describe('a file that was written just now', () => {
  it.each([{}, { limits: IN_PIECES }])(
    'is taken, but read again next time: its time may not show a change (%j)',
    async (low) => {
      const folder = makeFolder({ 'a.dex': captureOf('A1') });
      const facts = lookAtFile(join(folder, 'a.dex'))!;
      const book = await openBook();
      const now = (): number => facts.changedMs + 1;
      expect(await takeFolder(book, folder, { ...low, now })).toMatchObject({ taken: 1 });
      expect(await book.seenFiles([facts])).toEqual([null]);
      expect(await takeFolder(book, folder, { ...low, now })).toMatchObject({ already: 1 });
      expect(await book.seenFiles([facts])).toEqual([null]);
      expect(await takeFolder(book, folder, low)).toMatchObject({ already: 1 });
      expect(await book.seenFiles([facts])).toEqual([0]);
      expect(await book.head()).toMatchObject({ size: 1 });
    },
  );

  it('is one whose time is that of now, whatever clock is behind it', () => {
    const facts = { path: '', size: 1, modifiedMs: 5000, changedMs: 90_000 };
    expect([88_500, 90_000, 91_999].map((now) => isSettled(facts, now))).toEqual([false, false, false]);
    expect([0, 87_999, 92_001].map((now) => isSettled(facts, now))).toEqual([true, true, true]);
  });
});
