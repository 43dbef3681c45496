import { describe, expect, it } from 'vitest';
import { findResetBetween } from '../../src/checks/reset-between.js';
import { buildCapture } from '../support/build-capture.js';
import { readFirst } from '../support/check-cases.js';

const readOf = (...segments: string[]): ReturnType<typeof readFirst> => readFirst(buildCapture(['ID1*S', ...segments]));
const between = (first: string[], second: string[]): string => findResetBetween(readOf(...first), readOf(...second));

// The arithmetic of the domain rules, with D the difference of the lifetime counter.
describe('reset between two reads', () => {
  it.each([
    ['interval = D: the first read cleared', ['VA1*1000*10*300*3'], ['VA1*1200*12*200*2'], 'cleared'],
    ['interval = before + D: it did not', ['VA1*1000*10*300*3'], ['VA1*1200*12*500*5'], 'not-cleared'],
    ['less than D: someone else cleared', ['VA1*1000*10*300*3'], ['VA1*1200*12*100*1'], 'unseen'],
    ['nothing counted before tells nothing', ['VA1*1000*10*0*0'], ['VA1*1200*12*200*2'], 'not-known'],
    ['neither of these', ['VA1*1000*10*300*3'], ['VA1*1200*12*400*4'], 'not-known'],
    ['counters that went back', ['VA1*1000*10*300*3'], ['VA1*900*9*0*0'], 'not-known'],
    ['no counters', [], [], 'not-known'],
    ['counters that contradict each other', ['VA1**10**3', 'VA2**10**3'], ['VA1**11**1', 'VA2**11**4'], 'not-known'],
    ['less than D in one counter only', ['VA1**10**3', 'VA2**10**3'], ['VA1**12**1', 'VA2**10**0'], 'unseen'],
    ['columns', ['PA1*1*100', 'PA2*5**5'], ['PA1*1*100', 'PA2*6**1', 'PA1*2*100', 'PA2*1**1'], 'cleared'],
  ])('%s', (_, first, second, expected) => {
    expect(between(first, second)).toBe(expected);
  });
});
