import { describe, expect, it } from 'vitest';
import { hashContent } from '../../../src/book/intake/hash-content.js';
import { contentKey } from '../../../src/interval/index.js';
import { readCaptures } from '../../../src/read/index.js';
import { buildCapture, joinCaptures } from '../../support/build-capture.js';
import { changeSegments, GOOD_SEGMENTS } from '../../support/check-cases.js';
import { bytesOf } from '../../support/latin1-bytes.js';
import { sha256Of } from '../store/temporary-book.js';
import { captureOf } from './run-intake.js';

const hashesOf = (bytes: Uint8Array): string[] => readCaptures(bytes).reads.map(hashContent);

describe('hashContent', () => {
  it('is the hash of what duplicates are known by', () => {
    const cases = [
      captureOf('A1'),
      joinCaptures(captureOf('A1'), captureOf('A2')),
      buildCapture(GOOD_SEGMENTS, { eol: '\n', envelope: false, padding: new Uint8Array(20) }),
      buildCapture(changeSegments({ add: ['', 'QQ9*\u00ff*\u0000', 'junk', '   '] }), { crc: 'none' }),
      buildCapture([]),
      bytesOf('ST*001*0001\r\n'),
      bytesOf('PA1*11*150'),
    ];
    for (const bytes of cases) {
      const { reads } = readCaptures(bytes);
      expect(reads.length).toBeGreaterThan(0);
      expect(reads.map(hashContent)).toEqual(reads.map((read) => sha256Of(bytesOf(contentKey(read)))));
    }
  });

  it('does not change with line endings, envelope and check value, and does with a digit', () => {
    const [hash] = hashesOf(buildCapture(GOOD_SEGMENTS));
    expect(hashesOf(buildCapture(GOOD_SEGMENTS, { eol: '\r', envelope: false, crc: 'wrong' }))).toEqual([hash]);
    expect(hashesOf(buildCapture(changeSegments({ put: ['PA1*11*151'] })))).not.toEqual([hash]);
  });
});
