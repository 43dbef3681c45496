import { describe, expect, it } from 'vitest';
import { largestCredit } from '../../src/interval/largest-credit.js';
import { pairOf } from '../support/interval-cases.js';

describe('largestCredit', () => {
  it('is the largest coin or bill that the machine lists, or its dearest price', () => {
    expect(largestCredit(pairOf([], ['CA11*50', 'CA11*200', 'CA14*500', 'PA1*1*150']))).toBe(500);
    expect(largestCredit(pairOf([], ['CA11*50', 'PA1*1*150', 'PA1*2*180']))).toBe(180);
    expect(largestCredit(pairOf([], ['CA11', 'CA14*x', 'PA1*1']))).toBe(0);
  });
});
