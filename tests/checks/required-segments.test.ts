import { outlineRead } from '../../src/checks/last-good-reads.js';
import { requiredSegmentsCheck } from '../../src/checks/required-segments.js';
import { buildCapture, bytesOf, textOf } from '../support/build-capture.js';
import { changeSegments, checkCases, GOOD_SEGMENTS, machineRow, readFirst } from '../support/check-cases.js';

const GOOD = textOf(buildCapture(GOOD_SEGMENTS));
const lastGood = outlineRead(readFirst(buildCapture(GOOD_SEGMENTS)));
const cashAndCard = machineRow({ hasCash: true, hasCard: true });
const noCash = changeSegments({ without: ['CA2', 'CA3'] });
const noCard = changeSegments({ without: ['DA2'] });

checkCases('required segments', requiredSegmentsCheck, {
  clean: [
    { name: 'all that the roster asks for', context: { machine: cashAndCard } },
    { name: 'columns in place of totals', segments: changeSegments({ without: ['VA1'] }) },
    { name: 'totals in place of columns', segments: changeSegments({ without: ['PA1', 'PA2'] }) },
    {
      name: 'card sales of a second reader',
      segments: changeSegments({ without: ['DA2'], add: ['DB2*1000*6*200*1'] }),
      context: { machine: cashAndCard },
    },
    {
      name: 'no cash on a machine without',
      segments: noCash,
      context: { machine: machineRow({ hasCash: false }), lastGood },
    },
    { name: 'no cash where nothing says that there is', segments: noCash },
    {
      name: 'zero segments left out as a profile says',
      segments: noCard,
      context: { machine: cashAndCard, profile: { name: 'p', zeroSegmentsLeftOut: true } },
    },
    { name: 'a cut capture (told as cut)', capture: { cutAt: 200 }, context: { machine: cashAndCard } },
  ],
  failing: [
    {
      name: 'no ST',
      bytes: bytesOf(GOOD.replace('ST*001*0001\r\n', '')),
      code: 'missing-segment',
      severity: 'fault',
      at: { segment: 'ST' },
    },
    {
      name: 'no ID1',
      segments: changeSegments({ without: ['ID1'] }),
      code: 'missing-segment',
      severity: 'fault',
      at: { segment: 'ID1' },
    },
    {
      name: 'no SE before DXE',
      bytes: bytesOf(GOOD.replace(/SE\*26\*0001\r\n/, '')),
      code: 'missing-segment',
      severity: 'fault',
      at: { segment: 'SE' },
    },
    {
      name: 'no sales at all',
      segments: changeSegments({ without: ['VA1', 'PA1', 'PA2'] }),
      code: 'missing-segment',
      severity: 'doubt',
      message: /does not give sales \(VA1 or PA2\)/,
    },
    {
      name: 'no cash on a machine with',
      segments: noCash,
      context: { machine: cashAndCard },
      code: 'missing-segment',
      severity: 'doubt',
      message: /cash sales \(CA2\), though the roster says the machine has cash\.$/,
      at: { segment: 'CA2' },
      count: 2,
    },
    {
      name: 'no card sales on a machine with a reader',
      segments: noCard,
      context: { machine: cashAndCard },
      code: 'missing-segment',
      severity: 'doubt',
      message: /card sales \(DA2 or DB2\)/,
    },
    {
      name: 'no card sales though the last good read had them',
      segments: noCard,
      context: { lastGood },
      code: 'missing-segment',
      severity: 'doubt',
      message: /though the last good read of this machine did/,
    },
    {
      name: 'neither ID1 nor sales',
      segments: changeSegments({ without: ['ID1', 'VA1', 'PA1', 'PA2'] }),
      code: 'missing-segment',
      severity: 'fault',
      count: 2,
    },
  ],
});
