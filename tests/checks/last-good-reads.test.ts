import { describe, expect, it } from 'vitest';
import { checkCapture } from '../../src/checks/check-capture.js';
import { LastGoodReads, outlineRead } from '../../src/checks/last-good-reads.js';
import { buildCapture } from '../support/build-capture.js';
import { changeSegments, GOOD_SEGMENTS, readFirst } from '../support/check-cases.js';

const read = readFirst(buildCapture(GOOD_SEGMENTS));

describe('last good reads', () => {
  it('outline what a read had', () => {
    const outline = outlineRead(read);
    expect(outline.clock).toBe('2026-11-24T10:15:00');
    expect(outline.columns.map(({ id }) => id)).toEqual(['11', '12']);
    expect((['VA1', 'CA17', 'PA2', 'PA7', 'PA3', 'DB1', 'EA1'] as const).map(outline.has)).toEqual([
      true,
      true,
      true,
      false,
      false,
      false,
      false,
    ]);
  });

  it('are found by the key of their machine', () => {
    const reads = new LastGoodReads();
    reads.keep('asset A1', read);
    expect(reads.find('asset A1')).not.toBeNull();
    expect(reads.find('serial A1')).toBeNull();
  });

  it('keep nothing of a read that does not say whose it is', () => {
    const reads = new LastGoodReads();
    reads.keep(null, read);
    expect(reads.find(null)).toBeNull();
  });

  // A number of nothing but zeros was never given to the machine (common practice): found by it, the one machine's card
  // reader was missed in the other.
  it('are of one machine, though another has the same asset number of zeros', () => {
    const lastGood = new LastGoodReads();
    const check = (id1: string, ...without: string[]) => {
      const bytes = buildCapture(changeSegments({ put: [id1], without }));
      return checkCapture('x.dex', bytes, { lastGood }).findings.map(({ code }) => code);
    };
    expect(check('ID1*SN1*M****000000')).toEqual([]);
    expect(check('ID1*SN2*M****000000', 'DA1', 'DA2')).not.toContain('device-missing');
    expect(check('ID1*SN1*M****000000', 'DA1', 'DA2')).toContain('device-missing');
  });
});
