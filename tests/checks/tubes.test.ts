import { tubesCheck } from '../../src/checks/tubes.js';
import { changeSegments, checkCases, machineRow } from '../support/check-cases.js';

const empty = changeSegments({ put: ['CA15*0'] });

checkCases('tubes', tubesCheck, {
  clean: [
    { name: 'no tubes reported', segments: changeSegments({ without: ['CA15', 'CA17'] }) },
    {
      name: 'empty tubes on a machine without cash',
      segments: empty,
      context: { machine: machineRow({ hasCash: false }) },
    },
    { name: 'a tube of unknown contents', segments: changeSegments({ put: ['CA17*0*50'] }) },
  ],
  failing: [
    {
      name: 'no coins at all',
      segments: empty,
      code: 'change-short',
      severity: 'doubt',
      message: /^The tubes hold no coins: there is no change to give\.$/,
      at: { segment: 'CA15', element: 'CA1501' },
    },
    {
      name: 'one empty tube',
      segments: changeSegments({ put: ['CA17*0*50*0'] }),
      code: 'change-short',
      severity: 'note',
      message: /^The tube for 0\.50 EUR is empty: change may run short\.$/,
      at: { element: 'CA1703' },
    },
    {
      name: 'several empty tubes, one of a value not known',
      segments: changeSegments({ add: ['CA17*2*10*0', 'CA17*3*x*0'] }),
      code: 'change-short',
      severity: 'note',
      message: /^The tubes for 0\.10 EUR, a coin of unknown value are empty/,
    },
    {
      // A coin mechanism that knows only low and full gives estimates (SEM 9900X manual, p. 17): the profile says so.
      name: 'an estimate',
      segments: empty,
      context: { profile: { name: 'p', tubesEstimated: true } },
      code: 'change-short',
      severity: 'doubt',
      message: /\(an estimate: the coin mechanism knows only low and full\)\.$/,
    },
  ],
});
