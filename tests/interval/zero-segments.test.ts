import { describe, expect, it } from 'vitest';
import { ZeroSegments } from '../../src/interval/zero-segments.js';
import type { Profile } from '../../src/profile/index.js';
import { readOf } from '../support/interval-cases.js';

const zerosOf = (segments: readonly string[], profile: Profile | null = null): ZeroSegments =>
  new ZeroSegments(readOf('to', segments).read, profile);

const LEFT_OUT = ['PA1*11', 'PA2*5*500*1*100', 'PA1*12'];
const WRITTEN = ['PA1*11', 'PA2*5*500*1*100', 'PA1*12', 'PA2*0*0*0*0'];

describe('ZeroSegments', () => {
  it('sees that a machine leaves zero segments out (manual L0118P-SP, p. 62)', () => {
    expect(zerosOf(LEFT_OUT).leavesOut('PA2')).toBe(true);
    expect(zerosOf(LEFT_OUT).leavesOut('CA8')).toBe(true);
    expect(zerosOf(LEFT_OUT).leavesOut('VA1')).toBe(true);
  });

  it('sees that it writes them', () => {
    expect(zerosOf(WRITTEN).leavesOut('PA2')).toBe(false);
    expect(zerosOf(WRITTEN).leavesOut('CA8')).toBe(false);
    expect(zerosOf([...WRITTEN, 'PA1*13']).leavesOut('PA2')).toBe(false);
  });

  it('takes a segment with anything in it for no zero', () => {
    expect(zerosOf(['PA1*11', 'PA2*0*0*3*300', 'PA1*12']).leavesOut('PA2')).toBe(true);
    expect(zerosOf(['PA1*11', 'PA2***', 'PA1*12']).leavesOut('PA2')).toBe(false);
    expect(zerosOf(['PA1*11', 'PA2*x', 'PA1*12']).leavesOut('PA2')).toBe(true);
  });

  it('says no where nothing shows either way: absent is not zero', () => {
    expect(zerosOf([]).leavesOut('CA8')).toBe(false);
    expect(zerosOf(['PA1*11', 'PA2*5*500']).leavesOut('CA8')).toBe(false);
    expect(zerosOf(['PA1*11', 'PA1*12']).leavesOut('PA2')).toBe(false);
  });

  it('tells what a maker leaves out from what he keeps at zero', () => {
    const minor = ['PA1*11', 'PA2*0*0*0*0', 'PA3*1*100', 'PA1*12', 'PA2*0*0*0*0'];
    expect(zerosOf(minor).leavesOut('PA3')).toBe(true);
    expect(zerosOf(minor).leavesOut('CA8')).toBe(true);
    expect(zerosOf(minor).leavesOut('VA1')).toBe(false);
  });

  it('says what the absence of a segment in one column stands for', () => {
    expect(zerosOf(LEFT_OUT).standsFor('PA2')).toBe('never');
    expect(zerosOf(['PA1*11', 'PA2*0*0*3*300', 'PA1*12']).standsFor('PA2')).toBe('not-since-reset');
    expect(zerosOf(LEFT_OUT).standsFor('PA3')).toBeNull();
    expect(zerosOf(LEFT_OUT).standsFor('CA8')).toBeNull();
    expect(zerosOf(WRITTEN).standsFor('PA2')).toBeNull();
  });

  it('follows a profile that says so', () => {
    const left = { name: 'p', zeroSegmentsLeftOut: true };
    const written = { name: 'p', zeroSegmentsLeftOut: false };
    expect([zerosOf(WRITTEN, left).leavesOut('PA2'), zerosOf(WRITTEN, left).standsFor('CA8')]).toEqual([true, 'never']);
    expect([zerosOf(LEFT_OUT, written).leavesOut('PA2'), zerosOf(LEFT_OUT, written).standsFor('CA8')]).toEqual([
      false,
      null,
    ]);
    expect(zerosOf(LEFT_OUT, written).standsFor('PA2')).toBeNull();
    expect(zerosOf([], left).standsFor('CA8')).toBe('not-since-reset');
  });
});
