import { describe, expect, it } from 'vitest';
import { type Read, streamReads } from '../../src/read/index.js';
import { buildCapture, bytesOf } from '../support/build-capture.js';
import { changeSegments, GOOD_SEGMENTS } from '../support/check-cases.js';
import { describeRead } from '../support/describe-file.js';

const A = buildCapture(GOOD_SEGMENTS);
const B = buildCapture(changeSegments({ put: ['ID1*SN2*M'] }), { dxsLine: 'DXS*TST0000002*VA*V1/1*7' });

describe('a stream of captures', () => {
  it('gives each read as soon as it is whole, and the findings at the end', async () => {
    const stream = streamReads([A, B.slice(0, 50), B.slice(50), bytesOf('bye')]);
    const seen: string[] = [];
    for (;;) {
      const next = await stream.next();
      if (next.done) {
        expect(next.value).toMatchObject({
          readCount: 2,
          byteCount: A.length + B.length + 3,
          findings: [{ code: 'junk-between' }],
        });
        break;
      }
      seen.push(describeRead(next.value));
    }
    expect(seen).toEqual(['SN1 exact 1', 'SN2 exact 7']);
  });

  it('takes options, and gives what is open at the end', async () => {
    const stream = streamReads([A.slice(0, 100)], { longestSegment: 1000 });
    const { value } = await stream.next();
    expect(describeRead(value as Read)).toBe('SN1 absent cut 1');
  });
});
