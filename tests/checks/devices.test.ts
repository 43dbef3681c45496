import { devicesCheck } from '../../src/checks/devices.js';
import { outlineRead } from '../../src/checks/last-good-reads.js';
import { buildCapture } from '../support/build-capture.js';
import { changeSegments, checkCases, GOOD_SEGMENTS, machineRow, readFirst } from '../support/check-cases.js';

const lastGood = outlineRead(readFirst(buildCapture(GOOD_SEGMENTS)));
const all = machineRow({ hasCash: true, hasBills: true, hasCard: true });
const none = machineRow({ hasCash: false, hasBills: false, hasCard: false });

checkCases('devices', devicesCheck, {
  clean: [
    { name: 'all that the roster expects', context: { machine: all, lastGood } },
    {
      name: 'a card reader that reports as the second',
      segments: changeSegments({ without: ['DA1'], add: ['DB1*X'] }),
      context: { machine: all },
    },
    {
      name: 'no devices where nothing says that there are',
      segments: changeSegments({ without: ['CB1', 'CA1', 'BA1', 'DA1'] }),
    },
    {
      name: 'no devices where the roster says there are none',
      segments: changeSegments({ without: ['CA1', 'BA1', 'DA1'] }),
      context: { machine: none, lastGood },
    },
    {
      name: 'no devices and none before',
      segments: changeSegments({ without: ['CA1'] }),
      context: { lastGood: { ...lastGood, has: () => false } },
    },
    { name: 'a cut capture', capture: { cutAt: 100 }, context: { machine: all } },
  ],
  failing: [
    {
      name: 'a coin mechanism that the roster expects',
      segments: changeSegments({ without: ['CA1'] }),
      context: { machine: all },
      code: 'device-missing',
      severity: 'doubt',
      message: /^The coin mechanism does not report \(CA1\), though the roster says the machine has one\.$/,
      at: { segment: 'CA1' },
    },
    {
      name: 'bill validator and card reader',
      segments: changeSegments({ without: ['BA1', 'DA1'] }),
      context: { machine: all },
      code: 'device-missing',
      severity: 'doubt',
      count: 2,
    },
    {
      name: 'a board that reported before',
      segments: changeSegments({ without: ['CB1'] }),
      context: { machine: all, lastGood },
      code: 'device-missing',
      severity: 'doubt',
      message: /^The control board .* though it did in the last good read\.$/,
    },
    {
      name: 'a card reader that reported before, without a roster',
      segments: changeSegments({ without: ['DA1'] }),
      context: { lastGood },
      code: 'device-missing',
      severity: 'doubt',
      message: /\(DA1 or DB1\)/,
    },
  ],
});
