import { expect, it } from 'vitest';
import { loopsCheck } from '../../src/checks/loops.js';
import { changeSegments, checkCases, GOOD_SEGMENTS, runCase } from '../support/check-cases.js';

const wrap = (before: readonly string[], after: readonly string[]): string[] => [...before, ...GOOD_SEGMENTS, ...after];

checkCases('loops', loopsCheck, {
  clean: [
    // ANSI X12: LE01 repeats LS01.
    { name: 'a closed loop', segments: wrap(['LS*0100'], ['LE*0100']) },
    { name: 'loops inside each other', segments: wrap(['LS*0100', 'LS*0200'], ['LE*0200', 'LE*0100']) },
    { name: 'other segments that come often', segments: changeSegments({ add: ['CA11*50*1*1*0'] }) },
    { name: 'a loop that the cut left open', segments: wrap(['LS*0100'], []), capture: { cutAt: 200 } },
  ],
  failing: [
    {
      name: 'a loop never closed',
      segments: wrap(['LS*0100'], []),
      code: 'loop-open',
      severity: 'doubt',
      message: /^Loop 0100 is never closed/,
      at: { segment: 'LS', line: 3 },
    },
    {
      name: 'a loop never opened',
      segments: wrap([], ['LE*0100']),
      code: 'loop-open',
      severity: 'doubt',
      message: /^Loop 0100 is closed but was never opened/,
      at: { segment: 'LE' },
    },
    {
      name: 'a trailer of another loop',
      segments: wrap(['LS*0100'], ['LE*0200']),
      code: 'loop-open',
      severity: 'doubt',
      count: 2,
    },
    {
      name: 'an inner loop never closed',
      segments: wrap(['LS*0100', 'LS*0200'], ['LE*0100']),
      code: 'loop-open',
      severity: 'doubt',
      message: /^Loop 0200 is never closed/,
    },
    {
      name: 'a loop without identifier',
      segments: wrap(['LS'], []),
      code: 'loop-open',
      severity: 'doubt',
      message: /^Loop {2}is never/,
    },
  ],
});

it('takes a capture of nothing but loops in its stride', () => {
  const segments = Array.from({ length: 40_000 }, (_, at) => (at < 20_000 ? `LS*${at}` : `LE*X${at}`));
  const started = performance.now();
  expect(runCase(loopsCheck, { name: 'hostile', segments }).length).toBe(40_000);
  // Linear; were every trailer looked for among all headers, it would be minutes.
  expect(performance.now() - started).toBeLessThan(5000);
});
