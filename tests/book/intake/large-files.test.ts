import { createHash } from 'node:crypto';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { unpackFacts } from '../../../src/book/kept/index.js';
import { Recall } from '../../../src/book/recall/index.js';
import type { BookRead } from '../../../src/book/store/index.js';
import { verifyBook } from '../../../src/book/verify-book.js';
import { Roster } from '../../../src/sheets/index.js';
import { makeFolder } from '../../io/temporary-folder.js';
import { joinCaptures } from '../../support/build-capture.js';
import { gather, openBook, sha256Of } from '../store/temporary-book.js';
import { captureOf, fileEntries, takeFolder } from './run-intake.js';

const MEGABYTE = 1024 * 1024;

/** Captures at both ends of a file of a given size, with lines of something else between. */
function stretch(size: number): Uint8Array {
  const [first, last] = [captureOf('A1'), captureOf('A2')];
  const filler = Buffer.alloc(size - first.length - last.length, `${'-'.repeat(78)}\r\n`);
  filler.write('\r\n', filler.length - 2);
  return joinCaptures(first, filler, last);
}

/** A read but for what is kept with it of its file as a whole. */
function withoutOfFile({ facts, rests: _, ...row }: BookRead): unknown {
  const { ofFile: __, ...kept } = unpackFacts({ facts })!;
  return { ...row, kept };
}

/** Bytes that can not be packed: hashes of numbers. */
function noise(size: number): Uint8Array {
  const hashes = Array.from({ length: size / 64 }, (_, i) => createHash('sha512').update(`${i}`).digest());
  return Buffer.concat(hashes);
}

describe('a large file', () => {
  it.each([2 * MEGABYTE, 2 * MEGABYTE + 1])(
    'of %i bytes is taken in piece by piece, as one that is not',
    async (size) => {
      const bytes = stretch(size);
      const folder = makeFolder({ 'a.dex': bytes });
      const [inPieces, atOnce] = [await openBook(), await openBook()];
      expect(await takeFolder(inPieces, folder)).toMatchObject({ taken: 1, reads: 2 });
      await takeFolder(atOnce, folder, { limits: { longestWhole: 4 * MEGABYTE } });
      expect(await inPieces.head()).toEqual(await atOnce.head());
      // What is found on the file as a whole is known only after its reads are recorded: it is found again when asked for.
      expect((await gather(inPieces.reads())).map(withoutOfFile)).toEqual(
        (await gather(atOnce.reads())).map(withoutOfFile),
      );
      const checks = [inPieces, atOnce].map(async (book) =>
        new Recall(book, { take: { roster: new Roster() } }).checkFile(0),
      );
      expect((await checks[0]!).findings.map(({ code }) => code)).toContain('junk-between');
      expect(await checks[0]).toEqual(await checks[1]);
      expect((await verifyBook(inPieces)).fault).toBeNull();
      expect(sha256Of((await inPieces.bytesOf(sha256Of(bytes)))!)).toBe(sha256Of(bytes));
    },
  );

  it('beyond the largest is set aside unread, with its hash, and known again', async () => {
    const folder = makeFolder({ 'a.dex': stretch(2 * MEGABYTE), 'b.dex': stretch(2 * MEGABYTE + 1) });
    const limits = { largestCapture: 2 * MEGABYTE, largestSetAside: MEGABYTE };
    const book = await openBook();
    const intake = await takeFolder(book, folder, { limits });
    expect(intake).toMatchObject({ files: 2, taken: 1, setAside: 1, reads: 2 });
    const [, aside] = await fileEntries(book);
    const facts = {
      codes: ['file-too-large'],
      message: expect.stringContaining('2097153 bytes, more than the 2097152'),
    };
    expect(aside).toMatchObject({ file: 'b.dex', isKept: false, size: 2 * MEGABYTE + 1, facts });
    expect(aside!.sha256).toBe(sha256Of(stretch(2 * MEGABYTE + 1)));
    expect(await takeFolder(book, folder, { limits })).toMatchObject({ already: 2, taken: 0, setAside: 0 });
    expect((await verifyBook(book)).fault).toBeNull();
  });

  it('is known again under another name', async () => {
    const book = await openBook();
    await takeFolder(book, makeFolder({ 'a.dex': stretch(MEGABYTE + 1) }));
    const copy = makeFolder({ 'b.dex': stretch(MEGABYTE + 1) });
    expect(await takeFolder(book, copy)).toMatchObject({ files: 1, already: 1 });
    expect(await book.head()).toMatchObject({ size: 1 });
  });

  it('without a capture is set aside, packed or not, with as many of its bytes as are kept', async () => {
    const packed = gzipSync(noise(2 * MEGABYTE));
    const folder = makeFolder({
      'a.gz': packed,
      'b.bin': noise(2 * MEGABYTE),
      'c.gz': gzipSync(stretch(2 * MEGABYTE)),
    });
    const book = await openBook();
    expect(await takeFolder(book, folder)).toMatchObject({ files: 3, setAside: 2, taken: 1, reads: 2 });
    expect((await fileEntries(book)).map(({ facts, isKept }) => [facts.packing, facts.codes, isKept])).toEqual([
      ['gzip', ['not-a-capture'], true],
      [undefined, ['not-a-capture'], true],
      ['gzip', undefined, true],
    ]);
    expect(sha256Of((await book.bytesOf(sha256Of(packed)))!)).toBe(sha256Of(packed));
    const few = await openBook();
    const limits = { longestWhole: 1000, largestUnpacked: 10_000, largestSetAside: 3 * MEGABYTE };
    expect(await takeFolder(few, folder, { limits })).toMatchObject({ setAside: 3 });
    expect((await fileEntries(few)).map(({ facts }) => facts.message)).toEqual([
      'It is gzip-compressed data, and too long to be unpacked.',
      expect.stringContaining('it looks like binary data'),
      expect.stringContaining('would unpack to more than 10000 bytes'),
    ]);
    expect((await verifyBook(few)).fault).toBeNull();
  });
});
