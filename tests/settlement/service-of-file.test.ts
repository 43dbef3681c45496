import { describe, expect, it } from 'vitest';
import { takeReads } from '../../src/captures/index.js';
import { readCaptures } from '../../src/read/index.js';
import { settleRound } from '../../src/settlement/index.js';
import { Roster } from '../../src/sheets/index.js';
import { joinCaptures } from '../support/build-capture.js';
import { M1, makeCount, writeCapture } from './scenario.js';

// What a device kept since the visit before, and the visit: one file, one row of the captures list.
const FILES = {
  'mon.dex': joinCaptures(writeCapture({ at: '2026-11-16T10:00' })),
  'fri.dex': joinCaptures(
    writeCapture({ at: '2026-11-17T23:30', box: 100 }),
    writeCapture({ at: '2026-11-18T23:30', box: 200 }),
    writeCapture({ at: '2026-11-20T10:00', box: 300 }),
  ),
};

function settleFiles(counts: Parameters<typeof settleRound>[0]['counts']) {
  const capturesList = Object.keys(FILES).map((file, i) => ({
    ...{ file, receivedAt: null, reason: 'service' as const, signal: null, filled: null, machine: null, bag: null },
    place: { file: 'captures.csv', row: i + 2 },
  }));
  const roster = new Roster({ machines: [M1], capturesList });
  const reads = Object.entries(FILES).flatMap(([file, bytes]) =>
    takeReads(file, readCaptures(bytes).reads, { roster, check: () => [] }),
  );
  return settleRound({ reads, counts, roster }).settlements.flatMap(({ visits }) => visits);
}

describe('a file of a service read with several reads of one machine', () => {
  it('is of its last read: the others are no collections', () => {
    const visits = settleFiles([makeCount('M1', '2026-11-20T10:00', { coins: 300, bills: 0 })]);
    expect(visits.map(({ state, since, expected }) => [state, since, expected.coins])).toEqual([
      ['agreed', 'mon.dex', 300],
    ]);
  });

  it('is matched by its name to the read of the date, else to its last', () => {
    const visitOf = (when: string) =>
      settleFiles([makeCount('M1', when, { capture: 'fri.dex', coins: 1, bills: 0 })])[0]!.expected.coins;
    expect(visitOf('2026-11-18')).toBe(200);
    expect(visitOf('2026-11-24')).toBe(300);
  });
});
