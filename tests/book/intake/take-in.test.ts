import { execFileSync, spawn } from 'node:child_process';
import { realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { takeIn } from '../../../src/book/intake/index.js';
import { unpackFacts } from '../../../src/book/kept/index.js';
import type { BookRead } from '../../../src/book/store/index.js';
import { verifyBook } from '../../../src/book/verify-book.js';
import { Roster, readCapturesList, readMachines } from '../../../src/sheets/index.js';
import { makeFolder, workIn } from '../../io/temporary-folder.js';
import { buildCapture, joinCaptures } from '../../support/build-capture.js';
import { changeSegments, GOOD_SEGMENTS } from '../../support/check-cases.js';
import { gather, makeCapture, openBook, sha256Of } from '../store/temporary-book.js';
import { captureOf, DAY, fileEntries, intakeOptions, takeFolder } from './run-intake.js';

/** Codes of what checks found of a read, as the book keeps them. */
const codesOf = (row: Pick<BookRead, 'facts'>): string[] => unpackFacts(row)!.findings.map(({ code }) => code);

const NONE = { files: 0, taken: 0, setAside: 0, already: 0, leftForNextTime: 0, unread: 0, reads: 0, duplicates: 0 };

describe('takeIn', () => {
  it('keeps a file with one read, several or none, under its name, its day and its hash', async () => {
    const one = captureOf('A1');
    const two = joinCaptures(captureOf('A2'), captureOf('A3'));
    const folder = makeFolder({ 'b/one.dex': one, 'b/two.any name': two, 'a.txt': 'nothing of the kind' });
    const book = await openBook();
    expect(await takeFolder(book, folder)).toEqual({
      ...NONE,
      files: 3,
      taken: 2,
      setAside: 1,
      reads: 3,
      findings: [],
    });
    expect(await fileEntries(book)).toMatchObject([
      { kind: 'set-aside', day: DAY, file: 'a.txt', isKept: true, reads: 0 },
      { kind: 'capture-taken', day: DAY, file: 'b/one.dex', sha256: sha256Of(one), size: one.length, reads: 1 },
      { kind: 'capture-taken', day: DAY, file: 'b/two.any name', sha256: sha256Of(two), size: two.length, reads: 2 },
    ]);
    expect(await book.bytesOf(sha256Of(two))).toEqual(Buffer.from(two));
    expect((await gather(book.reads())).map(({ entry, number, machine }) => [entry, number, machine])).toEqual([
      [1, 0, 'asset A1'],
      [2, 0, 'asset A2'],
      [2, 1, 'asset A3'],
    ]);
    expect((await gather(book.entries({ dayFrom: DAY, dayTo: DAY, kinds: ['capture-taken'] }))).length).toBe(2);
    expect((await verifyBook(book)).fault).toBeNull();
  });

  it('adds nothing when it is run again, and reads no file that is as it was', async () => {
    const folder = makeFolder({ 'a.dex': captureOf('A1'), junk: 'junk', empty: '', 'b.gz': gzipSync(captureOf('A2')) });
    const book = await openBook();
    const { files } = await takeFolder(book, folder);
    const head = await book.head();
    // Bytes that can not be read any more do not matter.
    const told: string[] = [];
    const again = await takeFolder(book, folder, { onFile: (file) => told.push(file) });
    expect(again).toEqual({ ...NONE, files, already: 4, findings: [] });
    expect(await book.head()).toEqual(head);
    expect(told).toEqual(['a.dex', 'b.gz', 'empty', 'junk']);
  });

  it('takes late files in behind the others, also such as lie between them', async () => {
    const folder = makeFolder({ 'a.dex': captureOf('A1', 10), 'c.dex': captureOf('A1', 30) });
    const book = await openBook();
    await takeFolder(book, folder);
    writeFileSync(join(folder, 'b.dex'), captureOf('A1', 20));
    expect(await takeFolder(book, folder, { day: '2026-11-25' })).toMatchObject({ files: 3, taken: 1, already: 2 });
    expect((await fileEntries(book)).map(({ file, day }) => [file, day])).toEqual([
      ['a.dex', '2026-11-24'],
      ['c.dex', '2026-11-24'],
      ['b.dex', '2026-11-25'],
    ]);
    expect((await book.readsOf('asset A1')).map(({ entry }) => entry)).toEqual([0, 2, 1]);
    expect(await book.staleMachines()).toMatchObject([{ machine: 'asset A1' }]);
  });

  it('knows the same bytes under another name, and the same read in another file', async () => {
    const lines = { eol: '\n', envelope: false } as const;
    const folder = makeFolder({
      '1.dex': buildCapture(GOOD_SEGMENTS),
      '2.dex': buildCapture(GOOD_SEGMENTS),
      '3.dex': buildCapture(GOOD_SEGMENTS, lines),
      '4.dex': joinCaptures(buildCapture(GOOD_SEGMENTS), captureOf('A9'), buildCapture(GOOD_SEGMENTS)),
    });
    const book = await openBook();
    const { findings, ...counts } = await takeFolder(book, folder);
    expect(counts).toEqual({ ...NONE, files: 4, taken: 3, already: 1, reads: 5, duplicates: 3 });
    expect((await gather(book.reads({ isDuplicate: true }))).map(({ duplicateOf }) => duplicateOf)).toEqual(
      Array.from({ length: 3 }, () => ({ entry: 0, number: 0 })),
    );
    expect((await fileEntries(book)).map(({ file }) => file)).toEqual(['1.dex', '3.dex', '4.dex']);
    // The copy is known by its path from now on.
    expect(await takeFolder(book, folder)).toMatchObject({ files: 4, already: 4, taken: 0 });
  });

  it('keeps the same content of two machines of the roster apart', async () => {
    const { rows: machines } = readMachines({ file: 'm.csv', content: 'machine,asset\nM1,\nM2,\n' });
    const { rows: capturesList } = readCapturesList({ file: 'l.csv', content: 'file,machine\n1.dex,M1\n2.dex,M2\n' });
    const segments = changeSegments({ put: ['ID1*0*MODEL-A*1.0***0*6*1'], without: ['CB1'] });
    const folder = makeFolder({ '1.dex': buildCapture(segments), '2.dex': buildCapture(segments, { eol: '\n' }) });
    const book = await openBook();
    const roster = new Roster({ machines, capturesList });
    expect(await takeFolder(book, folder, { take: { roster } })).toMatchObject({ taken: 2, duplicates: 0 });
    expect((await gather(book.reads())).map(({ machine }) => machine)).toEqual(['machine M1', 'machine M2']);
  });

  it('takes packed captures in as they came, and says that they are packed', async () => {
    const packed = gzipSync(captureOf('A1'));
    const folder = makeFolder({ 'a.gz': packed, 'a.dex': captureOf('A1') });
    const book = await openBook();
    expect(await takeFolder(book, folder)).toMatchObject({ taken: 2, reads: 2, duplicates: 1 });
    const [plain, gz] = await fileEntries(book);
    expect(plain!.facts).toEqual({ fileTime: expect.stringMatching(/^\d{4}-\d\d-\d\dT/) });
    expect(gz).toMatchObject({ file: 'a.gz', sha256: sha256Of(packed), facts: { packing: 'gzip' } });
    expect(await book.bytesOf(sha256Of(packed))).toEqual(packed);
  });

  it('sets aside what is no capture, with the reason, and keeps its bytes where they are not too many', async () => {
    const bomb = gzipSync(Buffer.alloc(1_000_000));
    const folder = makeFolder({
      bomb,
      broken: gzipSync(captureOf('A1')).subarray(0, 100),
      empty: '',
      head: 'DXS*TST0000001*VA*V1/1*1\r\n',
      long: 'x'.repeat(5000),
      picture: Uint8Array.of(0xff, 0xd8, 0xff, 0xe0),
    });
    const book = await openBook();
    const limits = { largestUnpacked: 100_000, largestSetAside: 4000 };
    expect(await takeFolder(book, folder, { limits })).toEqual({ ...NONE, files: 6, setAside: 6, findings: [] });
    const entries = await fileEntries(book);
    expect(entries.map(({ kind }) => kind)).toEqual(Array.from({ length: 6 }, () => 'set-aside'));
    expect(entries.map(({ file, isKept, facts: { codes, message } }) => [file, isKept, codes, message])).toEqual([
      [
        'bomb',
        true,
        ['not-a-capture'],
        'It is gzip-compressed data that would unpack to more than 100000 bytes; it was not unpacked.',
      ],
      [
        'broken',
        true,
        ['not-a-capture'],
        'It is gzip-compressed data that is damaged or breaks off, so that it can not be unpacked.',
      ],
      ['empty', true, ['empty-file'], 'The file is empty (0 bytes).'],
      ['head', true, ['cut-short'], expect.stringContaining('no read is in it')],
      ['long', false, ['not-a-capture'], expect.stringContaining('Nothing in this file is a capture')],
      ['picture', true, ['not-a-capture'], expect.stringContaining('a JPEG picture')],
    ]);
    expect(await book.bytesOf(sha256Of(bomb))).toEqual(bomb);
    expect(await takeFolder(book, folder, { limits })).toMatchObject({ files: 6, already: 6 });
    expect((await verifyBook(book)).fault).toBeNull();
  });

  it('keeps a capture of which all reads are faulty, and one of an unknown machine', async () => {
    const { rows: machines } = readMachines({ file: 'm.csv', content: 'machine,asset\nM1,A1\n' });
    const nameless = buildCapture(changeSegments({ put: ['ID1*0*MODEL-A*1.0***0*6*1'], without: ['CB1'] }));
    const folder = makeFolder({
      'cut.dex': captureOf('A1').subarray(0, 300),
      'nameless.dex': nameless,
      'other.dex': captureOf('A2'),
    });
    const book = await openBook();
    await takeFolder(book, folder, { take: { roster: new Roster({ machines }) } });
    const reads = await gather(book.reads());
    expect(reads.map(({ machine, verdict }) => [machine, verdict])).toEqual([
      ['machine M1', 'read-again'],
      [null, 'doubtful'],
      ['asset A2', 'doubtful'],
    ]);
    expect(codesOf(reads[0]!)).toContain('cut-short');
    expect(codesOf(reads[2]!)).toContain('unknown-machine');
  });

  it.each([{}, { limits: { longestWhole: 100 } }])('takes in what an earlier program set aside (%j)', async (low) => {
    const bytes = captureOf('A1');
    const folder = makeFolder({ 'a.dex': bytes });
    const book = await openBook();
    await book.recordCaptures([makeCapture(Buffer.from(bytes).toString('latin1'), { kind: 'set-aside', reads: [] })]);
    expect(await takeFolder(book, folder, low)).toMatchObject({ taken: 1, reads: 1, already: 0 });
    expect((await gather(book.entries())).map(({ kind, refersTo }) => [kind, refersTo])).toEqual([
      ['set-aside', null],
      ['capture-taken', 0],
    ]);
    expect((await verifyBook(book)).fault).toBeNull();
  });

  it('keeps names as they are, whatever stands in them, and what a capture says of itself', async () => {
    const names = ['line\nbreak.dex', '\u001b[2J.dex', '=cmd|x.dex', '\u202etxt.dex', "'; DROP TABLE entry;--", ' '];
    const asset = 'A\u0000\u001b[31m';
    const files = names.map((name, i) => [name, captureOf(`${asset}${i}`)] as const);
    const folder = makeFolder(Object.fromEntries(files));
    const book = await openBook();
    expect(await takeFolder(book, folder)).toMatchObject({ files: 6, taken: 6, findings: [] });
    expect((await fileEntries(book)).map(({ file }) => file).sort()).toEqual([...names].sort());
    expect((await verifyBook(book)).fault).toBeNull();
    expect(await takeFolder(book, folder)).toMatchObject({ already: 6 });
  });

  it('says what can not be read, in words that steer no terminal, and goes on', async () => {
    const folder = makeFolder({ 'z.dex': captureOf('A1') });
    symlinkSync('nowhere', join(folder, 'a\n\u001b[2J'));
    const book = await openBook();
    const names = ['gone', '.'];
    const { findings, ...counts } = await takeIn(book, names, intakeOptions(folder));
    expect(counts).toEqual({ ...NONE, files: 3, taken: 1, unread: 2, reads: 1 });
    expect(findings.map(({ code, message }) => [code, message])).toEqual([
      ['unreadable-file', 'gone could not be read: there is no such file or folder.'],
      ['unreadable-file', 'a\\x0A\\x1B[2J could not be read: there is no such file or folder.'],
    ]);
  });

  it('goes out of circles of links', async () => {
    const folder = makeFolder({ 'a/1.dex': captureOf('A1') });
    symlinkSync('..', join(folder, 'a/up'));
    symlinkSync('round', join(folder, 'a/round'));
    const book = await openBook();
    expect(await takeFolder(book, folder)).toMatchObject({ files: 2, taken: 1, unread: 1 });
  });

  it('says that a file or folder vanished while others were read', async () => {
    const folder = makeFolder({ '1.dex': captureOf('A1'), '2.dex': captureOf('A2'), 'sub/3.dex': captureOf('A3') });
    const book = await openBook();
    const onFile = (file: string): void => {
      if (file !== '1.dex') return;
      rmSync(join(folder, '2.dex'));
      rmSync(join(folder, 'sub'), { recursive: true });
    };
    const { findings, ...counts } = await takeFolder(book, folder, { onFile, limits: { filesAtOnce: 2 } });
    expect(counts).toEqual({ ...NONE, files: 3, taken: 1, unread: 2, reads: 1 });
    expect(findings.map(({ file, message }) => [file, message])).toEqual([
      ['2.dex', '2.dex could not be read: there is no such file or folder.'],
      ['sub', 'sub could not be read: there is no such file or folder.'],
    ]);
    expect((await verifyBook(book)).fault).toBeNull();
  });

  it('says so too when a file vanished before it was looked at', async () => {
    const folder = makeFolder({ '1.dex': captureOf('A1'), '2.dex': captureOf('A2') });
    const onFile = (): void => rmSync(join(folder, '2.dex'), { force: true });
    const book = await openBook();
    const { findings, ...counts } = await takeFolder(book, folder, { onFile, limits: { filesAtOnce: 1 } });
    expect(counts).toMatchObject({ files: 2, taken: 1, unread: 1 });
    expect(findings.map(({ file }) => file)).toEqual(['2.dex']);
  });

  it('passes over the sheets, the book and the output', async () => {
    const folder = makeFolder({ 'a.dex': captureOf('A1'), 'machines.csv': 'machine\nM1\n', 'out/day.json': '{}' });
    const path = join(folder, 'book.db');
    const book = await openBook(path);
    const names = ['machines.csv', 'out', 'book.db', 'book.db-wal', 'book.db-shm'];
    const skip = new Set(names.map((name) => realpathSync(join(folder, name))));
    expect(await takeFolder(book, folder, { skip })).toMatchObject({ files: 1, taken: 1 });
  });

  it('takes standard input and pipes, up to a limit', async () => {
    const folder = makeFolder({ 'a.dex': captureOf('A1') });
    const book = await openBook();
    const bytes = captureOf('A2');
    const workplace = workIn(folder, bytes.subarray(0, 50), bytes.subarray(50));
    const options = { ...intakeOptions(folder), workplace };
    expect(await takeIn(book, ['-', 'a.dex'], options)).toMatchObject({ files: 2, taken: 2, reads: 2 });
    const [first] = await fileEntries(book);
    expect(first).toMatchObject({ file: '-', sha256: sha256Of(bytes), facts: {} });
    const more = { ...options, workplace: workIn(folder, bytes), limits: { largestUnpacked: 100 } };
    const { unread, findings } = await takeIn(book, ['-'], more);
    expect([unread, findings[0]!.message]).toEqual([
      1,
      '- could not be read: more than 100 bytes came from a pipe; save them to a file and take that in.',
    ]);
    const broken = { ...options, workplace: { cwd: folder, stdin: failing() } };
    expect((await takeIn(book, ['-'], broken)).findings[0]!.message).toMatch(/the disk or network gave an error/);
  });

  it.skipIf(process.platform === 'win32')('takes a pipe that is named outright', async () => {
    const folder = makeFolder({ 'a.dex': captureOf('A1') });
    execFileSync('mkfifo', [join(folder, 'pipe')]);
    const book = await openBook();
    spawn('sh', ['-c', 'cat a.dex > pipe'], { cwd: folder });
    expect(await takeIn(book, ['pipe'], intakeOptions(folder))).toMatchObject({ files: 1, taken: 1 });
    expect(await takeFolder(book, folder)).toMatchObject({ files: 2, already: 1, unread: 1 });
  });

  it('takes the file time as the time received only where the user says so', async () => {
    const folder = makeFolder({ 'a.dex': captureOf('A1') });
    const [first, second] = [await openBook(), await openBook()];
    await takeFolder(first, folder);
    await takeFolder(second, folder, { isFileTimeReceived: true });
    const [entry] = await fileEntries(first);
    expect((await gather(first.reads()))[0]!.receivedAt).toBeNull();
    expect((await gather(second.reads()))[0]!.receivedAt).toBe(entry!.facts.fileTime);
  });

  it('keeps what the captures list says of a read', async () => {
    const rows = ['a.dex,2026-11-24 10:20,service,B1,yes', 'b.dex,2026-11-26 10:20,service,B2,no'];
    const content = `file,received_at,reason,bag,filled\n${rows.join('\n')}\n`;
    const { rows: capturesList } = readCapturesList({ file: 'l.csv', content });
    const folder = makeFolder({ 'a.dex': captureOf('A1'), 'b.dex': captureOf('A2') });
    const book = await openBook();
    await takeFolder(book, folder, { take: { roster: new Roster({ capturesList }) } });
    const [known, late] = await gather(book.reads());
    expect(late).toMatchObject({
      bag: 'B2',
      verdict: 'doubtful',
      facts: { filled: false },
    });
    expect(known).toMatchObject({
      receivedAt: '2026-11-24T10:20:00',
      reason: 'service',
      bag: 'B1',
      currency: 'EUR',
      decimals: 2,
      facts: { filled: true },
    });
  });

  it('records as many files, bytes and reads at once as the limits say', async () => {
    const files = Array.from({ length: 12 }, (_, i) => [`${i}.dex`, captureOf(`A${i}`)] as const);
    const folder = makeFolder(Object.fromEntries(files));
    for (const limits of [{ filesAtOnce: 5 }, { bytesAtOnce: 2000 }, { readsAtOnce: 3 }]) {
      const book = await openBook();
      expect(await takeFolder(book, folder, { limits })).toMatchObject({ taken: 12 });
      expect((await fileEntries(book)).map(({ file }) => file)).toEqual(files.map(([name]) => name).sort());
    }
  });
});

async function* failing(): AsyncGenerator<Uint8Array> {
  yield captureOf('A1');
  throw Object.assign(new Error('read failed'), { code: 'EIO' });
}
