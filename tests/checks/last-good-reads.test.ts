import { describe, expect, it } from 'vitest';
import { LastGoodReads, outlineRead } from '../../src/checks/last-good-reads.js';
import { buildCapture } from '../support/build-capture.js';
import { changeSegments, GOOD_SEGMENTS, readFirst } from '../support/check-cases.js';

const read = readFirst(buildCapture(GOOD_SEGMENTS));
const ofId1 = (id1: string): typeof read => readFirst(buildCapture(changeSegments({ put: [id1] })));

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

  it('are found by asset, else by serial number', () => {
    const reads = new LastGoodReads();
    reads.keep(read);
    reads.keep(ofId1('ID1*SN7*M'));
    expect(reads.find(ofId1('ID1*OTHER*M****A1'))).not.toBeNull();
    expect(reads.find(ofId1('ID1*SN7*M'))).not.toBeNull();
    expect(reads.find(ofId1('ID1*SN1*M'))).toBeNull();
    expect(reads.find(ofId1('ID1*SN1*M****A2'))).toBeNull();
  });

  it('keep nothing of a read that does not say whose it is', () => {
    const reads = new LastGoodReads();
    const nobody = ofId1('ID1**M');
    reads.keep(nobody);
    expect(reads.find(nobody)).toBeNull();
  });
});
