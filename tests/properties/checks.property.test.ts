import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CaptureChecker, type CaptureCheckOptions, checkCapture } from '../../src/checks/check-capture.js';
import { CHECKS } from '../../src/checks/checks.js';
import { FINDING_CODES } from '../../src/findings/index.js';
import { CaptureReader, type CaptureReaderOptions } from '../../src/read/index.js';
import { Roster } from '../../src/sheets/roster.js';
import { anyCuts, anyFile, cutUp } from '../support/arbitraries/capture-bytes.js';
import { arbitraryHistory } from '../support/arbitraries/history.js';
import { buildCapture } from '../support/build-capture.js';
import { GOOD_SEGMENTS, machineRow } from '../support/check-cases.js';
import { bytesOf, joinCaptures, textOf } from '../support/latin1-bytes.js';

const roster = new Roster({
  machines: [machineRow({ hasCash: true, hasBills: true, hasCard: true, currency: 'EUR' })],
});
const anyOptions: fc.Arbitrary<CaptureCheckOptions> = fc.constantFrom(
  {},
  { roster, receivedAt: '2026-11-24T10:20:00', saidMachine: 'M1', strict: true },
);

function checkInChunks(
  chunks: readonly Uint8Array[],
  limits: CaptureReaderOptions,
  options: CaptureCheckOptions,
): string {
  const checker = new CaptureChecker('x', options);
  const reader = new CaptureReader(limits);
  for (const chunk of chunks) reader.push(chunk, (read) => checker.addRead(read));
  return JSON.stringify(checker.end(reader.end((read) => checker.addRead(read))));
}

describe('checks of any file', () => {
  it('never throw, never crash, and say of every finding what and where', () => {
    fc.assert(
      fc.property(anyFile, anyOptions, (bytes, options) => {
        const check = checkCapture('x', bytes, options);
        for (const finding of check.findings) {
          expect(finding.code).not.toBe('check-crashed');
          expect(Object.hasOwn(FINDING_CODES, finding.code)).toBe(true);
          expect(finding.message).toMatch(/^[^\u0000-\u001f\u007f-\u009f]+\.$/);
          expect(finding.file).toBe('x');
          if (finding.offset !== undefined) expect(finding.offset).toBeLessThanOrEqual(bytes.length);
        }
        if (check.reads.length === 0) expect(check.verdict).toBe('read-again');
      }),
      { seed: 21, numRuns: 1500 },
    );
  });

  it('say the same whatever the chunks', () => {
    const anyLimits = fc.constantFrom<CaptureReaderOptions>({}, { longestSegment: 30 }, { longestSet: 400 });
    fc.assert(
      fc.property(anyFile, anyCuts, anyLimits, anyOptions, (bytes, cuts, limits, options) => {
        const whole = checkInChunks([bytes], limits, options);
        expect(checkInChunks(cutUp(bytes, cuts), limits, options)).toBe(whole);
      }),
      { seed: 22, numRuns: 1200 },
    );
  });

  it('find every whole capture in a file of joined ones, whatever stands between', () => {
    const good = buildCapture(GOOD_SEGMENTS);
    const between = fc.constantFrom(
      '',
      '\r\n',
      '\u0000\u0000',
      '\u001a',
      '\u00ef\u00bb\u00bf',
      '\r\nREADER 7\r\n',
      '\r\n\r\n\u001a',
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(between, fc.nat(2)), { minLength: 1, maxLength: 6 }), (parts) => {
        // The last line ending may be missing too.
        const file = joinCaptures(...parts.flatMap(([text, cut]) => [bytesOf(text), good.slice(0, good.length - cut)]));
        const { reads, verdict } = checkCapture('x', file);
        expect(reads.map(({ integrity }) => integrity.state)).toEqual(parts.map(() => 'exact'));
        expect(verdict).toBe('sound');
      }),
      { seed: 23, numRuns: 200 },
    );
  });
});

describe('checks of a file cut anywhere', () => {
  const good = buildCapture(GOOD_SEGMENTS);
  const lastEnding = good.length - 2;

  it('never call it sound but for the last line ending', () => {
    for (let length = 0; length < good.length; length++) {
      const { verdict } = checkCapture('x', good.slice(0, length));
      expect([length, verdict === 'sound']).toEqual([length, length >= lastEnding]);
    }
  });

  it('call it read-again up to the end of its set', () => {
    const setEnd = textOf(good).indexOf('\r\nDXE');
    for (let length = 0; length < setEnd; length++) {
      expect(checkCapture('x', good.slice(0, length)).verdict).toBe('read-again');
    }
  });
});

describe('checks of simulated machines', () => {
  // The simulator keeps its counters by its own book and writes its CRC by its own arithmetic: a machine in order whose
  // capture came whole can give no fault, and no doubt about the capture itself.
  const capture = new Set(
    CHECKS.flatMap(({ codes }) => codes).filter(
      (code) => !['event-active', 'clock-jump', 'change-short'].includes(code),
    ),
  );

  it('find nothing wrong with a capture that came whole', () => {
    fc.assert(
      fc.property(arbitraryHistory({ discounts: true, revalues: true }), (history) => {
        for (const { bytes } of history.reads) {
          const { findings, reads } = checkCapture('x', bytes);
          const wrong = findings.filter(({ code, severity }) => severity !== 'note' && capture.has(code));
          expect(wrong).toEqual([]);
          expect(['exact', 'byte-swapped']).toContain(reads[0]!.integrity.state);
          expect(reads[0]).toMatchObject({ complete: true, columns: history.config.columns.length });
          expect(reads[0]!.segments.stated).toBe(reads[0]!.segments.counted);
        }
      }),
      { seed: 24, numRuns: 60 },
    );
  });

  it('find every cross total closed where no device was ever swapped and no counter rolled over', () => {
    const machine = { lifetime: ['kept' as const], interval: ['kept' as const] };
    fc.assert(
      fc.property(arbitraryHistory({ machine }), (history) => {
        if (history.config.past.scar !== 0) return;
        for (const { bytes } of history.reads) {
          const { findings } = checkCapture('x', bytes);
          expect(findings.filter(({ code }) => code === 'cross-total').map(({ message }) => message)).toEqual([]);
        }
      }),
      { seed: 25, numRuns: 60 },
    );
  });
});
