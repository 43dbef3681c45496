import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { Recall, readFileEntry } from '../../../src/book/recall/index.js';
import type { BookStore, CaptureToRecord } from '../../../src/book/store/index.js';
import { checkCapture } from '../../../src/checks/index.js';
import type { CaptureListRow, MachineRow } from '../../../src/model/index.js';
import { MOST_COLUMNS, readCaptures } from '../../../src/read/index.js';
import { Roster, readCapturesList, readMachines } from '../../../src/sheets/index.js';
import { buildCapture } from '../../support/build-capture.js';
import { gather, makeCapture, makeRead, openBook, sha256Of } from '../store/temporary-book.js';

const segments = (asset: string, vends = 7): string[] => [
  `ID1*SER1*MODEL-A****${asset}`,
  'ID4*2*978*EUR',
  'ID5*261123*1000',
  'PA1*11*150',
  `PA2*${vends}*${vends * 150}`,
];
const capture = (asset: string, vends = 7): Buffer => Buffer.from(buildCapture(segments(asset, vends)));

/** Record one file in the way that an intake does. */
async function record(store: BookStore, bytes: Uint8Array, changes: Partial<CaptureToRecord> = {}): Promise<number> {
  const base = makeCapture('x', { bytes, sha256: sha256Of(bytes), size: bytes.length, reads: [], name: 'v1.dex' });
  const [outcome] = await store.recordCaptures([{ ...base, ...changes }]);
  if (outcome?.state !== 'recorded') throw new RangeError(`it was ${outcome?.state}`);
  return outcome.entry;
}

const machines = (text: string): readonly MachineRow[] =>
  readMachines({ file: 'machines.csv', content: Buffer.from(text) }).rows;
const list = (text: string): readonly CaptureListRow[] =>
  readCapturesList({ file: 'captures.csv', content: Buffer.from(text) }).rows;

const ROSTER = new Roster({ machines: machines('machine,asset\nV1,A1\n') });

describe('Recall', () => {
  it('takes reads out of the book as takeReads would take them from the file', async () => {
    const store = await openBook();
    const two = Buffer.concat([capture('A1', 5), capture('A2', 6)]);
    await record(store, two, {
      reads: [0, 1].map((number) =>
        makeRead(`r${number}`, { number, machine: number === 0 ? 'machine V1' : 'asset A2' }),
      ),
    });
    const recall = new Recall(store, { take: { roster: ROSTER } });
    const reads = await gather(store.reads());
    // In the order asked for, not that of the file.
    const [second, first] = await recall.takeReads([reads[1]!, reads[0]!]);
    expect(first).toMatchObject({ file: 'v1.dex', machine: { machine: 'V1' }, matchedBy: 'asset', faults: [] });
    expect(first!.read.columns.map(({ id }) => id)).toEqual(['11']);
    expect(second).toMatchObject({ file: 'v1.dex', machine: null, read: { number: 1, machine: { asset: 'A2' } } });
    expect(recall.labels.entryOf('v1.dex')).toBe(0);
    expect(recall.labels.entryOf('other.dex')).toBeNull();
  });

  it('keeps what was known of a read when it came, where no list tells of it now', async () => {
    const store = await openBook();
    const known = {
      receivedAt: '2026-11-23T10:20:00',
      reason: 'service',
      bag: 'B7',
      facts: { filled: false },
    } as const;
    await record(store, capture('none'), { reads: [makeRead('r', { machine: 'machine V1', ...known })] });
    const [taken] = await new Recall(store, { take: { roster: ROSTER } }).takeReads(await gather(store.reads()));
    expect(taken).toMatchObject({
      receivedAt: '2026-11-23T10:20:00',
      reason: 'service',
      bag: 'B7',
      filled: false,
      machine: { machine: 'V1' },
      matchedBy: 'list',
    });
  });

  it('lets a list of today correct what was known', async () => {
    const store = await openBook();
    await record(store, capture('A1'), {
      day: '2026-11-23',
      reads: [makeRead('r', { machine: 'machine V1', reason: 'service', bag: 'B7' })],
    });
    const capturesList = list('file,received_at,reason,bag\nv1.dex,2026-11-23 10:21,scheduled,\n');
    const roster = new Roster({ ...ROSTER.books, capturesList });
    const [taken] = await new Recall(store, { take: { roster } }).takeReads(await gather(store.reads()));
    expect(taken).toMatchObject({ receivedAt: '2026-11-23T10:21:00', reason: 'scheduled', bag: null });
  });

  it('does not take what a list says of a file of a later day for what it says of an earlier one of that name', async () => {
    const store = await openBook();
    const own = (content: string, at: string, bag: string) => [
      makeRead(content, { machine: 'machine V1', receivedAt: at, reason: 'service', bag }),
    ];
    await record(store, capture('A1', 5), { day: '2026-11-22', reads: own('a', '2026-11-22T10:00:00', 'B1') });
    await record(store, capture('A1', 6), { day: '2026-11-23', reads: own('b', '2026-11-23T10:00:00', 'B2') });
    const capturesList = list('file,received_at,reason,bag\nv1.dex,2026-11-23 10:00,scheduled,B2\n');
    const roster = new Roster({ ...ROSTER.books, capturesList });
    const taken = await new Recall(store, { take: { roster } }).takeReads(await gather(store.reads()));
    expect(taken.map(({ file, receivedAt, reason, bag }) => [file, receivedAt, reason, bag])).toEqual([
      ['v1.dex (entry 0)', '2026-11-22T10:00:00', 'service', 'B1'],
      ['v1.dex', '2026-11-23T10:00:00', 'scheduled', 'B2'],
    ]);
    // Without any list too, two files of one name stay two, and the later one has the plain name.
    const plain = await new Recall(store, { take: { roster: ROSTER } }).takeReads(await gather(store.reads()));
    expect(plain.map(({ file }) => file)).toEqual(['v1.dex (entry 0)', 'v1.dex']);
  });

  it("takes a file's own time as when it was received only where the user says so", async () => {
    const store = await openBook();
    const facts = { fileTime: '2026-11-23T11:00:00' };
    await record(store, capture('A1'), { facts, reads: [makeRead('r', { machine: 'machine V1' })] });
    const taken = async (isFileTimeReceived: boolean) =>
      (
        await new Recall(store, { take: { roster: ROSTER }, isFileTimeReceived }).takeReads(await gather(store.reads()))
      )[0];
    expect((await taken(false))?.receivedAt).toBeNull();
    expect((await taken(true))?.receivedAt).toBe('2026-11-23T11:00:00');
  });

  it('checks a file of the book as the file itself is checked, packed or not', async () => {
    const store = await openBook();
    const damaged = capture('A1');
    damaged[damaged.indexOf('PA2*7')! + 4] = 0x38;
    const reads = [
      makeRead('d', { asset: 'A1', serial: 'SER1', board: null, clock: '2026-11-23T10:00:00', machine: 'machine V1' }),
    ];
    await record(store, damaged, { name: 'plain.dex', reads });
    await record(store, gzipSync(damaged), { name: 'packed.dex', facts: { packing: 'gzip' }, reads });
    const recall = new Recall(store, { take: { roster: ROSTER } });
    const direct = checkCapture('plain.dex', damaged, { roster: ROSTER });
    const check = (entry: number) => recall.checkFile(entry);
    expect(direct.verdict).toBe('read-again');
    expect(await check(0)).toEqual(direct);
    expect((await check(1)).findings.map(({ code }) => code)).toEqual(direct.findings.map(({ code }) => code));
  });

  it('says of a file set aside why it was', async () => {
    const store = await openBook();
    await record(store, Buffer.from('no capture at all'), { kind: 'set-aside', name: 'junk' });
    const message = 'It unpacks to more than can be looked at.';
    await record(store, Buffer.from('z'), { kind: 'set-aside', name: 'bomb', bytes: null, facts: { message } });
    await record(store, Buffer.from([0x1f, 0x8b, 8, 0, 1]), {
      kind: 'set-aside',
      name: 'torn.gz',
      facts: { packing: 'gzip' },
    });
    const recall = new Recall(store, { take: { roster: ROSTER } });
    const checks = [];
    for await (const entry of store.entries()) checks.push(await recall.checkFile(entry.seq));
    expect(checks.map(({ verdict }) => verdict)).toEqual(['read-again', 'read-again', 'read-again']);
    expect(checks[0]!.findings[0]).toMatchObject({ code: 'not-a-capture', file: 'junk' });
    expect(checks[1]!.findings).toMatchObject([{ code: 'not-a-capture', file: 'bomb', message }]);
    expect(checks[2]!.findings).toMatchObject([{ code: 'not-a-capture', file: 'torn.gz' }]);
  });

  it('reads files that are too long to keep part by part', async () => {
    const store = await openBook();
    const one = capture('A1');
    const count = Math.ceil((4.2 * 1024 * 1024) / one.length);
    const long = Buffer.concat(Array.from({ length: count }, () => one));
    await record(store, long, { reads: [makeRead('r', { number: count - 1, machine: 'machine V1' })] });
    const recall = new Recall(store, { take: { roster: ROSTER } });
    const [taken] = await recall.takeReads(await gather(store.reads()));
    expect(taken!.read.number).toBe(count - 1);
    // Of a file that is in the book those reads are checked that are in the book.
    expect((await recall.checkFile(0)).reads).toHaveLength(1);
  });

  it('reads for good what was taken in before a read had a limit of columns', async () => {
    const wide = Buffer.from(
      buildCapture([
        'ID1*SER1*MODEL-A****A1',
        'ID4*2*978*EUR',
        ...Array.from({ length: MOST_COLUMNS + 1 }, (_, i) => `PA1*${i}*150`),
      ]),
    );
    const file = Buffer.concat([wide, capture('A2', 6)]);
    for (const bytes of [file, gzipSync(file)]) {
      const store = await openBook();
      const facts = bytes === file ? {} : { packing: 'gzip' };
      await record(store, bytes, { facts, reads: [0, 1].map((number) => makeRead(`r${number}`, { number })) });
      const taken = await new Recall(store, { take: { roster: ROSTER } }).takeReads(await gather(store.reads()));
      expect(taken.map(({ read }) => [read.machine.asset, read.columns.length])).toEqual([
        ['A1', MOST_COLUMNS + 1],
        ['A2', 1],
      ]);
    }
    // A read keeps its number, whether the one before it is given out or not.
    expect(readCaptures(file).reads.map(({ number }) => number)).toEqual([1]);
  });

  it('says so when a read is not in its file, or an entry is missing', async () => {
    const store = await openBook();
    await record(store, capture('A1'), { reads: [makeRead('r', { number: 3, machine: 'machine V1' })] });
    const recall = new Recall(store, { take: { roster: ROSTER } });
    await expect(recall.takeReads(await gather(store.reads()))).rejects.toMatchObject({ kind: 'corrupted' });
    await expect(recall.file(7)).rejects.toMatchObject({ kind: 'corrupted' });
  });
});

describe('readFileEntry', () => {
  it('refuses entries of no file, and those that do not say what they must', () => {
    const entry = { seq: 1, recordedAt: 't', subject: null, day: null, key: null, refersTo: null, body: '{}' };
    expect(() => readFileEntry({ ...entry, kind: 'count-entered' })).toThrow(RangeError);
    expect(() => readFileEntry({ ...entry, kind: 'capture-taken' })).toThrow(/Verify/);
  });
});
