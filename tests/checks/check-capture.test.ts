import { describe, expect, it } from 'vitest';
import { CaptureChecker, checkCapture, reportUnreadable } from '../../src/checks/check-capture.js';
import { LastGoodReads } from '../../src/checks/last-good-reads.js';
import { CaptureReader, readCaptures } from '../../src/read/index.js';
import { Roster } from '../../src/sheets/roster.js';
import { buildCapture, buildTransmission, joinCaptures } from '../support/build-capture.js';
import { changeSegments, GOOD_SEGMENTS, machineRow } from '../support/check-cases.js';

const GOOD = buildCapture(GOOD_SEGMENTS);
const codesOf = (bytes: Uint8Array, options = {}): string[] =>
  checkCapture('x.dex', bytes, options).findings.map(({ code }) => code);

describe('checking a capture', () => {
  it('gives what the output contract asks for', () => {
    expect(checkCapture('dir/x.dex', GOOD)).toEqual({
      file: 'dir/x.dex',
      verdict: 'sound',
      headline: 'Sound: nothing to do.',
      reads: [
        {
          machine: { asset: 'A1', serial: 'SN1', board: 'CB1', model: 'MODEL-A', name: null, location: null },
          clock: '2026-11-24T10:15:00',
          appendedAt: null,
          receivedAt: null,
          currency: 'EUR',
          decimals: 2,
          segments: { stated: 26, counted: 26 },
          integrity: { state: 'exact', stated: expect.stringMatching(/^[0-9A-F]{4}$/), computed: expect.any(String) },
          complete: true,
          columns: 2,
        },
      ],
      findings: [],
    });
  });

  it('puts the worst first, whether of a read or of the file', () => {
    const bytes = buildTransmission(
      [
        { segments: changeSegments({ add: ['ZZ1'] }) },
        { segments: GOOD_SEGMENTS, crc: 'wrong' },
        { segments: GOOD_SEGMENTS, seCount: 1 },
      ],
      { dxe: null, header: 'A line of the reader' },
    );
    const check = checkCapture('x.dex', bytes);
    expect(check.findings.map(({ code, severity, read }) => [severity, code, read])).toEqual([
      ['fault', 'integrity-damaged', 1],
      ['doubt', 'cut-short', undefined],
      ['doubt', 'segment-count', 2],
      ['note', 'junk-before', undefined],
      ['note', 'unknown-segment', 0],
    ]);
    expect(check.verdict).toBe('read-again');
    expect(check.headline).toBe('Read again: read the machine again before you leave it, and keep this file as it is.');
    expect(check.findings.every(({ file }) => file === 'x.dex')).toBe(true);
    expect(check.reads).toHaveLength(3);
  });

  it('is strict when told to', () => {
    const doubtful = buildCapture(GOOD_SEGMENTS, { seCount: 1 });
    expect(checkCapture('x', doubtful).verdict).toBe('doubtful');
    expect(checkCapture('x', doubtful, { strict: true }).verdict).toBe('read-again');
    expect(checkCapture('x', GOOD, { strict: true }).verdict).toBe('sound');
  });

  it('takes what was read already', () => {
    expect(checkCapture('x', readCaptures(GOOD))).toEqual(checkCapture('x', GOOD));
  });

  it('looks up what the office knows', () => {
    const machine = machineRow({ location: 'Hall', hasBills: true, currency: 'USD' });
    const roster = new Roster({ machines: [machine] });
    const check = checkCapture('x', buildCapture(changeSegments({ without: ['BA1'] })), { roster });
    expect(check.reads[0]!.machine).toMatchObject({ name: 'M1', location: 'Hall' });
    expect(check.findings.map(({ code }) => code)).toEqual(['device-missing', 'currency-differs']);
    expect(codesOf(GOOD, { roster, saidMachine: 'M9' })).toContain('unknown-machine');
  });

  it('takes a time received, a tolerance, and money where the capture says none', () => {
    expect(codesOf(GOOD, { receivedAt: '2026-11-24T10:40:00' })).toEqual(['clock-wrong']);
    expect(codesOf(GOOD, { receivedAt: '2026-11-24T10:40:00', clockToleranceMinutes: 30 })).toEqual([]);
    const silent = buildCapture(changeSegments({ without: ['ID4'] }));
    expect(checkCapture('x', silent).reads[0]).toMatchObject({ currency: null, decimals: null });
    expect(codesOf(silent)).toEqual(['decimals-unknown']);
    const given = checkCapture('x', silent, { currency: 'KWD', decimals: 3 });
    expect(given.reads[0]).toMatchObject({ currency: 'KWD', decimals: 3 });
  });

  it('remembers good reads, and no bad ones, to say what a cut one leaves out', () => {
    const lastGood = new LastGoodReads();
    const cut = GOOD.slice(0, GOOD.length - 260);
    const wrong = buildCapture(changeSegments({ without: ['PA1', 'PA2'] }), { crc: 'wrong' });
    const inFile = checkCapture('x', joinCaptures(GOOD, wrong, cut), { lastGood }).findings;
    expect(inFile.find(({ read, code }) => read === 2 && code === 'cut-short')!.message).toMatch(
      /of the last good read/,
    );
    const [later] = checkCapture('later', cut, { lastGood }).findings;
    expect(later!.message).toMatch(/of the last good read/);
    expect(checkCapture('alone', cut).findings[0]!.message).not.toMatch(/of the last good read/);
  });

  it('checks a file read by read, as its bytes come', () => {
    const file = joinCaptures(GOOD, buildCapture(GOOD_SEGMENTS, { crc: 'wrong' }));
    const checker = new CaptureChecker('x');
    const reader = new CaptureReader();
    const seen: string[] = [];
    const take = (read: Parameters<typeof checker.addRead>[0]): void => {
      const checked = checker.addRead(read);
      expect(checked.read).toBe(read);
      seen.push(`${checked.context.file} ${checked.findings.length}`);
    };
    for (let at = 0; at < file.length; at += 7) reader.push(file.subarray(at, at + 7), take);
    expect(checker.end(reader.end(take))).toEqual(checkCapture('x', file));
    expect(seen).toEqual(['x 0', 'x 1']);
  });
});

describe('a file of very many reads', () => {
  it('is checked to its end, though not every read is listed', () => {
    const checker = new CaptureChecker('x');
    const [read] = readCaptures(GOOD).reads;
    for (let count = 0; count < 100_001; count++) checker.addRead(read!);
    const check = checker.end({ findings: [] });
    expect(check.reads).toHaveLength(100_000);
    expect(check.findings).toMatchObject([
      { code: 'reads-unlisted', severity: 'note', message: expect.stringContaining('100001 reads') },
    ]);
    expect(check.verdict).toBe('sound');
  });
});

describe('a file that could not be opened', () => {
  it('is a fault that says why', () => {
    expect(reportUnreadable('gone.dex', 'there is no such file')).toEqual({
      file: 'gone.dex',
      verdict: 'read-again',
      headline: 'Read again: check the name and that you may read it.',
      reads: [],
      findings: [
        {
          code: 'unreadable-file',
          severity: 'fault',
          message: 'The file could not be read: there is no such file.',
          file: 'gone.dex',
          advice: 'Check the name and that you may read it.',
        },
      ],
    });
  });
});
