import { cutShortCheck } from '../../src/checks/cut-short.js';
import { outlineRead } from '../../src/checks/last-good-reads.js';
import { buildCapture, bytesOf, joinCaptures, textOf } from '../support/build-capture.js';
import { checkCases, GOOD_SEGMENTS, readFirst } from '../support/check-cases.js';

const GOOD = buildCapture(GOOD_SEGMENTS);
const cutBefore = (text: string, more = 0): Uint8Array => GOOD.slice(0, textOf(GOOD).indexOf(text) + more);
const lastGood = outlineRead(readFirst(GOOD));

checkCases('cut short', cutShortCheck, {
  clean: [
    { name: 'a missing last line ending', bytes: buildCapture(GOOD_SEGMENTS, { envelope: false, cutAt: -2 }) },
    { name: 'a missing DXE (told of the file)', capture: { dxe: null } },
  ],
  failing: [
    {
      name: 'a cut inside a column',
      bytes: cutBefore('PA2*10', 4),
      code: 'cut-short',
      severity: 'fault',
      message:
        /^The capture ends too early, and the last whole segment is PA1 on line 19, of column 11: without G85 its integrity is unknown; no column after 11 came; the end \(SE\) is missing\.$/,
      at: { segment: 'PA1', line: 19, column: '11' },
    },
    {
      name: 'a cut with the last good read beside it',
      bytes: cutBefore('PA2*10', 4),
      context: { lastGood },
      code: 'cut-short',
      severity: 'fault',
      message: /1 column of the last good read is missing \(12\)/,
    },
    {
      name: 'a cut before all columns',
      bytes: cutBefore('VA1'),
      context: { lastGood, receivedAt: '2026-11-24T10:20:00', signal: 4 },
      code: 'cut-short',
      severity: 'fault',
      message: /2 columns of the last good read are missing \(11, 12\).* with a weak signal \(4 of 31\)\.$/,
    },
    {
      name: 'a cut before all columns of an unknown machine',
      bytes: cutBefore('VA1'),
      code: 'cut-short',
      severity: 'fault',
      message: /no column came; the end/,
    },
    {
      name: 'a cut between G85 and SE',
      bytes: cutBefore('SE*'),
      context: { lastGood },
      code: 'cut-short',
      severity: 'fault',
      message: /is G85 on line 26: the end \(SE\) is missing\.$/,
    },
    {
      name: 'a cut inside SE',
      bytes: buildCapture(GOOD_SEGMENTS, { envelope: false, cutAt: -4 }),
      code: 'cut-short',
      severity: 'fault',
      message: /is G85 on line 25: the end/,
    },
    {
      name: 'a cut inside ST',
      bytes: bytesOf('ST*001'),
      code: 'cut-short',
      severity: 'fault',
      message: /before any segment came whole/,
    },
    {
      name: 'a cut that the next capture hangs on',
      bytes: joinCaptures(cutBefore('PA2*10', 6), GOOD),
      code: 'cut-short',
      severity: 'fault',
      message: /is PA1 on line 19, of column 11/,
    },
    {
      name: 'filler after the cut',
      bytes: joinCaptures(cutBefore('PA2*10'), bytesOf('\r\n\u0000\u0000')),
      code: 'cut-short',
      severity: 'fault',
      message: /is PA1 on line 19/,
    },
  ],
});
