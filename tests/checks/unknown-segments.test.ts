import { unknownSegmentsCheck } from '../../src/checks/unknown-segments.js';
import { changeSegments, checkCases } from '../support/check-cases.js';

checkCases('unknown segments', unknownSegmentsCheck, {
  clean: [{ name: 'extra elements of a known one', segments: changeSegments({ add: ['EA7*1*2*3*4*5'] }) }],
  failing: [
    {
      name: "a maker's own",
      segments: changeSegments({ add: ['ZZ1*1', 'ZZ2*1', 'ZZ1*2'] }),
      code: 'unknown-segment',
      severity: 'note',
      message: /^3 segments are not in the dictionary and left as they are: ZZ1, ZZ2\.$/,
      at: { segment: 'ZZ1', line: 23 },
    },
    {
      name: 'an escape code as identifier',
      segments: changeSegments({ add: ['\u001b]0;x\u0007*1'] }),
      code: 'unknown-segment',
      severity: 'note',
      message: /^1 segment is .*\\x1B\]0;x\\x07\.$/,
    },
  ],
});
