import { expect, it } from 'vitest';
import { findUnstated } from '../../src/accounts/find-unstated.js';
import { takeReads } from '../../src/captures/index.js';
import { readCaptures } from '../../src/read/index.js';
import { buildCapture } from '../support/build-capture.js';
import { rosterOf, takeCounters } from './machine-days.js';

const roster = rosterOf('machine,asset\nM1,A1\n');

it('names machines that were read and are not on the roster, each once', () => {
  const reads = takeCounters(
    [
      { asset: 'A1', at: '2026-11-16 10:00' },
      { asset: 'A7', at: '2026-11-16 10:00' },
      { asset: 'A7', at: '2026-11-17 10:00' },
    ],
    roster,
  );
  const found = findUnstated(reads);
  expect(found).toMatchObject([{ code: 'unknown-machine', severity: 'doubt', file: 'read-1.dex' }]);
  expect(found[0]!.message).toBe(
    'The machine of asset A7: no one machine on the roster fits, so what it sold is in no statement.',
  );
});

it('says so of a machine that does not name itself, and nothing of a read that counts nowhere', () => {
  const take = (segments: readonly string[], check: 'sound' | 'faulty') =>
    takeReads('a.dex', readCaptures(buildCapture(segments, check === 'sound' ? {} : { crc: 'wrong' })).reads, {
      roster,
    });
  expect(findUnstated(take(['ID1*'], 'sound'))[0]!.message).toMatch(/^A machine whose capture does not name it/);
  expect(findUnstated(take(['ID1*S-9****A9'], 'faulty'))).toEqual([]);
});
