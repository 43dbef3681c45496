import { controlNumberCheck } from '../../src/checks/control-number.js';
import { buildCapture, bytesOf, joinCaptures, textOf } from '../support/build-capture.js';
import { checkCases, GOOD_SEGMENTS } from '../support/check-cases.js';

const BARE = buildCapture(GOOD_SEGMENTS, { envelope: false });
const withoutLastEnding = BARE.slice(0, -2);

checkCases('control number', controlNumberCheck, {
  clean: [
    // ANSI X12: SE02 repeats ST02. Some readers pad numbers (common practice).
    { name: 'a padded number', capture: { seControl: '1' } },
    { name: 'no number on either side', capture: { stLine: 'ST*001', seControl: '' } },
    { name: 'a set without ST', bytes: bytesOf('ID1*S\r\nSE*3*9\r\n') },
    { name: 'a cut capture', capture: { cutAt: 200 } },
    { name: 'the ST of the next capture on the same line', bytes: joinCaptures(withoutLastEnding, BARE) },
    {
      name: 'the DXS of the next capture on the same line',
      bytes: joinCaptures(withoutLastEnding, buildCapture(GOOD_SEGMENTS)),
    },
  ],
  failing: [
    {
      name: 'another number',
      capture: { seControl: '0002' },
      code: 'control-number',
      severity: 'doubt',
      message: /^The set begins as number 0001 and ends as number 0002\.$/,
      at: { segment: 'SE', element: 'SE02', expected: '0001', received: '0002' },
    },
    {
      name: 'no number at the end',
      capture: { seControl: '' },
      code: 'control-number',
      severity: 'doubt',
      at: { received: 'nothing' },
    },
    {
      name: 'more elements after a number that differs',
      bytes: bytesOf(textOf(BARE).replace(/(SE\*26\*)0001/, '$10002*X')),
      code: 'control-number',
      severity: 'doubt',
    },
    {
      name: 'control characters in a number',
      capture: { seControl: '\u001b[2J' },
      code: 'control-number',
      severity: 'doubt',
      message: /number \\x1B\[2J\.$/,
    },
  ],
});
