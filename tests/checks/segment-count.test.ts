import { segmentCountCheck } from '../../src/checks/segment-count.js';
import { bytesOf } from '../support/build-capture.js';
import { checkCases, GOOD_SEGMENTS } from '../support/check-cases.js';

checkCases('segment count', segmentCountCheck, {
  clean: [
    // ANSI X12: SE01 counts the segments of the set, ST and SE included. Counted by hand: ST, ID1, PA1, PA2, G85, SE.
    {
      name: 'a set of six counted by hand',
      bytes: bytesOf('ST*001*7\r\nID1*S*M\r\nPA1*1*100\r\nPA2*1*100\r\nG85*0000\r\nSE*6*7\r\n'),
    },
    { name: 'blank lines between segments', segments: ['', ...GOOD_SEGMENTS, ''] },
    { name: 'a number that is none (told as malformed)', capture: { seCount: 'x' } },
    { name: 'a cut capture (told as cut)', capture: { cutAt: 200 } },
  ],
  failing: [
    {
      name: 'segments missing',
      capture: { seCount: 30 },
      code: 'segment-count',
      severity: 'doubt',
      message: /^SE says 30 segments, but 26 came: 4 are missing\.$/,
      at: { segment: 'SE', element: 'SE01', expected: '26', received: '30' },
    },
    {
      name: 'segments too many',
      capture: { seCount: 25 },
      code: 'segment-count',
      severity: 'doubt',
      message: /^SE says 25 segments, but 26 came: 1 too many\.$/,
    },
    {
      name: 'no number',
      capture: { seCount: '' },
      code: 'segment-count',
      severity: 'doubt',
      message: /does not say/,
      at: { received: 'nothing' },
    },
  ],
});
