import { placementCheck } from '../../src/checks/placement.js';
import { changeSegments, checkCases } from '../support/check-cases.js';

checkCases('placement', placementCheck, {
  clean: [
    // Repeats are normal for these (domain rule).
    {
      name: 'repeats of segments that may come often',
      segments: changeSegments({
        add: ['CA11*50*1*1*0', 'CA11*100*1*1*0', 'MA5*FAIL*0', 'LA1*0*11*150*1*1', 'LA1*1*11*150*1*1'],
      }),
    },
    {
      name: 'several price lists of one column',
      segments: changeSegments({ add: ['PA7*12*CA*0*150*1*150*1*150', 'PA7*12*DA*0*150*9*1350*1*150'] }),
    },
  ],
  failing: [
    {
      name: 'a second VA1',
      segments: changeSegments({ add: ['VA1*1*1*1*1', 'VA1*2*2*2*2'] }),
      code: 'repeated-segment',
      severity: 'doubt',
      message: /^VA1 comes again \(2 times\).* the first one was taken\.$/,
      at: { segment: 'VA1' },
    },
    {
      name: 'a second PA2 of one column',
      segments: changeSegments({ add: ['PA2*1*1*1*1'] }),
      code: 'repeated-segment',
      severity: 'doubt',
      at: { segment: 'PA2' },
    },
    {
      // A column named by two PA1 is not normal: keep the first, say so (domain rule).
      name: 'a column named again',
      segments: changeSegments({ add: ['PA1*11*999', 'PA2*9*9*9*9'] }),
      code: 'repeated-segment',
      severity: 'doubt',
      message: /^Column 11 is named again \(1 time\)/,
      at: { segment: 'PA1', column: '11' },
    },
    {
      name: 'product segments before any column',
      segments: ['ID1*S', 'PA2*1*1', 'PA2*2*2', 'PA1*11*150', 'PA2*1*1'],
      code: 'orphan-segment',
      severity: 'doubt',
      message: /^PA2 stands without a column to belong to \(2 times\)/,
    },
    {
      name: 'a column without a name',
      segments: changeSegments({ add: ['PA1**150', 'PA2*1*1'] }),
      code: 'orphan-segment',
      severity: 'doubt',
      count: 2,
      at: { segment: 'PA1' },
    },
  ],
});
