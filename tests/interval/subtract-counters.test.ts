import { describe, expect, it } from 'vitest';
import { ELEMENT } from '../../src/dictionary/index.js';
import type { ResetState } from '../../src/interval/resets.js';
import { type Counters, type End, type PairKnowledge, subtractCounters } from '../../src/interval/subtract-counters.js';

const COUNTERS: Counters = {
  lifetime: ELEMENT.PA201,
  interval: ELEMENT.PA203,
  column: '11',
  isNew: false,
  isGone: false,
};
const end = (lifetime: number | null, interval: number | null, more: Partial<End> = {}): End => ({
  lifetime,
  interval,
  isLeftOutAtZero: false,
  absenceStandsFor: null,
  ...more,
});
const knowing = (state: ResetState, isCertain = true, more: Partial<PairKnowledge> = {}): PairKnowledge => ({
  reset: { state, isCertain, readsBetween: 'not-known' },
  restart: null,
  profile: null,
  mayRollOver: true,
  keepsLifetime: true,
  ...more,
});
const NOTHING = knowing('not-known', false);
const LEFT_OUT = { isLeftOutAtZero: true };

describe('subtractCounters: lifetime counters', () => {
  it('takes the earlier from the later', () => {
    const difference = subtractCounters(COUNTERS, end(100, 5), end(112, 12), NOTHING);
    expect(difference).toEqual({
      element: ELEMENT.PA201,
      column: '11',
      value: 12,
      basis: 'lifetime',
      floor: false,
      why: null,
      modulus: null,
      from: 100,
      to: 112,
    });
  });

  it('adds what a roll-over took, where no other counter fell', () => {
    expect(subtractCounters(COUNTERS, end(9_998, 5), end(4, 12), NOTHING)).toMatchObject({ value: 6, modulus: 10_000 });
    const fallen = subtractCounters(
      COUNTERS,
      end(9_998, 5),
      end(4, 12),
      knowing('cleared', true, { mayRollOver: false }),
    );
    expect(fallen).toMatchObject({ value: null, why: 'backward', modulus: null });
  });

  it('takes the digits that a profile gives', () => {
    const known = knowing('cleared', true, { profile: { name: 'p', rollOverDigits: { PA201: 3 } } });
    expect(subtractCounters(COUNTERS, end(998, 5), end(4, 12), known)).toMatchObject({ value: 6, modulus: 1_000 });
  });

  it('never gives a negative figure', () => {
    expect(subtractCounters(COUNTERS, end(500, 5), end(490, 2), NOTHING)).toMatchObject({
      value: null,
      why: 'backward',
    });
    expect(subtractCounters(COUNTERS, end(null, null), end(-4, -4), NOTHING)).toMatchObject({ value: null });
    const wide = subtractCounters(COUNTERS, end(-Number.MAX_SAFE_INTEGER, 1), end(Number.MAX_SAFE_INTEGER, 1), NOTHING);
    expect(wide).toMatchObject({ value: null, why: 'backward' });
  });

  it('is a floor where counters go on although the board is said to be new', () => {
    const known = knowing('cleared', true, { restart: 'go-on' });
    expect(subtractCounters(COUNTERS, end(100, 5), end(112, 12), known)).toMatchObject({ value: 12, floor: true });
  });
});

describe('subtractCounters: absent is not zero', () => {
  it('knows nothing of a counter that neither read has', () => {
    const difference = subtractCounters(COUNTERS, end(null, null), end(null, null), NOTHING);
    expect(difference).toMatchObject({ value: null, why: 'absent', floor: false });
  });

  it('does not even know that it did not move where somebody may have cleared it', () => {
    const known = knowing('not-known', false, { keepsLifetime: false });
    expect(subtractCounters(COUNTERS, end(null, null), end(null, null), known)).toMatchObject({
      value: null,
      floor: true,
    });
  });

  it('reads absence as the columns beside it show', () => {
    const never = end(null, null, { absenceStandsFor: 'never' });
    expect(subtractCounters(COUNTERS, end(null, null), never, NOTHING)).toMatchObject({ value: 0, basis: 'lifetime' });
    const sinceReset = end(null, null, { absenceStandsFor: 'not-since-reset', ...LEFT_OUT });
    const cleared = subtractCounters(COUNTERS, end(null, null), sinceReset, knowing('cleared'));
    expect(cleared).toMatchObject({ value: 0, basis: 'interval', floor: false });
  });

  it('gives no figure for what was there and is gone', () => {
    expect(subtractCounters(COUNTERS, end(100, 5), end(null, null), NOTHING)).toMatchObject({
      value: null,
      why: 'absent-now',
    });
    expect(subtractCounters(COUNTERS, end(0, 0), end(null, null), NOTHING)).toMatchObject({ value: null });
    expect(subtractCounters(COUNTERS, end(0, 0), end(null, null, LEFT_OUT), NOTHING)).toMatchObject({ value: 0 });
    const gone = { ...COUNTERS, isGone: true };
    expect(subtractCounters(gone, end(0, 0), end(null, null, LEFT_OUT), NOTHING)).toMatchObject({ value: null });
  });

  it('takes what comes to have stood at 0 only where that is shown', () => {
    expect(subtractCounters(COUNTERS, end(null, null), end(7, 3), NOTHING)).toMatchObject({
      value: null,
      why: 'absent-before',
    });
    expect(subtractCounters(COUNTERS, end(null, null, LEFT_OUT), end(7, 3), NOTHING)).toMatchObject({ value: 7 });
    // All it ever counted came since the last reset (domain rule).
    expect(subtractCounters(COUNTERS, end(null, null), end(7, 7), NOTHING)).toMatchObject({ value: 7, from: null });
  });

  it('lets the interval counter stand in, where it covers the time exactly', () => {
    expect(subtractCounters(COUNTERS, end(null, null), end(7, 3), knowing('cleared'))).toMatchObject({
      value: 3,
      basis: 'interval',
    });
    expect(subtractCounters(COUNTERS, end(null, null), end(7, 3), knowing('unseen', false))).toMatchObject({
      value: null,
    });
    expect(subtractCounters(COUNTERS, end(100, 5), end(null, 3), knowing('cleared'))).toMatchObject({ value: 3 });
    expect(subtractCounters(COUNTERS, end(100, 5), end(null, 3), NOTHING)).toMatchObject({ why: 'absent-now' });
  });
});

describe('subtractCounters: a column that only the later read has', () => {
  const isNew = { ...COUNTERS, isNew: true };
  const nowhere = end(null, null);

  it('started at 0', () => {
    expect(subtractCounters(isNew, nowhere, end(10, 10), knowing('cleared'))).toMatchObject({ value: 10, from: null });
    expect(subtractCounters(isNew, nowhere, end(10, null), NOTHING)).toMatchObject({ value: 10 });
    expect(subtractCounters(isNew, nowhere, end(10, 4), knowing('unseen', false))).toMatchObject({ value: 10 });
  });

  it('did not, where its interval counter shows that it counted before the last reset', () => {
    expect(subtractCounters(isNew, nowhere, end(5000, 3), knowing('cleared'))).toMatchObject({
      value: 3,
      basis: 'interval',
    });
    expect(subtractCounters(isNew, nowhere, end(5000, 40), knowing('kept'))).toMatchObject({
      value: null,
      why: 'absent-before',
    });
  });
});

describe('subtractCounters: without lifetime counters', () => {
  const known = (state: ResetState, isCertain = true): PairKnowledge =>
    knowing(state, isCertain, { keepsLifetime: false });

  it('takes what came since the earlier read cleared it', () => {
    expect(subtractCounters(COUNTERS, end(null, 30), end(null, 12), known('cleared'))).toMatchObject({
      element: ELEMENT.PA203,
      value: 12,
      basis: 'interval',
      floor: false,
      from: null,
      to: 12,
    });
    expect(subtractCounters(COUNTERS, end(0, 30), end(0, 12), known('cleared', false))).toMatchObject({
      value: 12,
      floor: true,
    });
  });

  it('takes the earlier from the later where nobody cleared it', () => {
    expect(subtractCounters(COUNTERS, end(0, 30), end(0, 42), known('kept'))).toMatchObject({
      value: 12,
      from: 30,
      to: 42,
    });
    expect(subtractCounters(COUNTERS, end(0, 30), end(0, 42), known('kept', false))).toMatchObject({
      value: 12,
      floor: true,
    });
  });

  it('gives a floor where somebody else cleared it', () => {
    expect(subtractCounters(COUNTERS, end(0, 30), end(0, 12), known('unseen', false))).toMatchObject({
      value: 12,
      floor: true,
    });
    expect(subtractCounters(COUNTERS, end(0, 30), end(0, 12), known('kept'))).toMatchObject({ value: 12, floor: true });
    expect(subtractCounters(COUNTERS, end(0, 30), end(0, 12), known('not-known', false))).toMatchObject({
      value: 12,
      floor: true,
    });
  });

  it('needs no word on who cleared a counter that stood at 0', () => {
    expect(subtractCounters(COUNTERS, end(0, 0), end(0, 12), known('not-known', true))).toMatchObject({
      value: 12,
      floor: false,
    });
    expect(subtractCounters(COUNTERS, end(0, 0), end(0, 12), known('not-known', false))).toMatchObject({
      value: 12,
      floor: true,
    });
    expect(subtractCounters(COUNTERS, end(null, null, LEFT_OUT), end(null, 12), known('kept'))).toMatchObject({
      value: 12,
    });
  });

  it('gives no figure where nothing tells', () => {
    expect(subtractCounters(COUNTERS, end(0, 5), end(0, 12), known('not-known'))).toMatchObject({
      value: null,
      why: 'reset-not-known',
    });
    expect(subtractCounters(COUNTERS, end(null, null), end(null, 12), known('not-known'))).toMatchObject({
      why: 'reset-not-known',
    });
    expect(subtractCounters(COUNTERS, end(null, null), end(null, 12), known('kept'))).toMatchObject({
      why: 'absent-before',
    });
    expect(subtractCounters(COUNTERS, end(null, 5), end(null, null), known('cleared'))).toMatchObject({
      why: 'absent-now',
    });
    const without = { ...COUNTERS, interval: null };
    expect(subtractCounters(without, end(null, null), end(null, null), known('cleared'))).toMatchObject({
      why: 'absent',
    });
  });

  it('takes a counter that is left out at zero for 0', () => {
    expect(subtractCounters(COUNTERS, end(null, 5), end(null, null, LEFT_OUT), known('cleared'))).toMatchObject({
      value: 0,
    });
  });

  it('trusts a lifetime counter at 0 only on a machine that keeps such counters', () => {
    expect(subtractCounters(COUNTERS, end(0, 0), end(0, 0), NOTHING)).toMatchObject({
      value: 0,
      basis: 'lifetime',
      floor: false,
    });
    expect(subtractCounters(COUNTERS, end(0, 0), end(0, 0), known('not-known', false))).toMatchObject({
      value: 0,
      floor: true,
    });
    expect(subtractCounters(COUNTERS, end(0, 0), end(0, 0), known('cleared'))).toMatchObject({
      basis: 'lifetime',
      floor: false,
    });
    expect(subtractCounters(COUNTERS, end(0, null), end(0, null), known('not-known', false))).toMatchObject({
      value: 0,
      basis: 'lifetime',
    });
  });

  it('is a floor as well where the board is said to be new', () => {
    const goesOn = { ...known('kept'), restart: 'go-on' } as const;
    expect(subtractCounters(COUNTERS, end(0, 30), end(0, 42), goesOn)).toMatchObject({ value: 12, floor: true });
    expect(subtractCounters(COUNTERS, end(0, 0), end(0, 42), goesOn)).toMatchObject({ value: 42, floor: true });
  });
});

describe('subtractCounters: after a restart', () => {
  const restarted = knowing('not-known', false, { restart: 'from-zero' });

  it('gives what was counted since as a floor', () => {
    expect(subtractCounters(COUNTERS, end(5000, 5), end(30, 12), restarted)).toEqual({
      element: ELEMENT.PA201,
      column: '11',
      value: 30,
      basis: 'restart',
      floor: true,
      why: null,
      modulus: null,
      from: null,
      to: 30,
    });
  });

  it('takes the interval counter where no lifetime counter is kept', () => {
    const difference = subtractCounters(COUNTERS, end(0, 5), end(0, 12), restarted);
    expect(difference).toMatchObject({ element: ELEMENT.PA203, value: 12, floor: true });
  });

  it('knows nothing of what is absent, unless absence stands for zero', () => {
    expect(subtractCounters(COUNTERS, end(5000, 5), end(null, null), restarted)).toMatchObject({
      value: null,
      why: 'absent-now',
      floor: true,
    });
    const never = end(null, null, { absenceStandsFor: 'never' });
    expect(subtractCounters(COUNTERS, end(5000, 5), never, restarted)).toMatchObject({ value: 0, floor: true });
  });

  it('does not take the whole of a counter that a device kept through it', () => {
    expect(subtractCounters(COUNTERS, end(100_000, 50), end(100_500, 500), restarted)).toMatchObject({
      value: 500,
      from: 100_000,
    });
    expect(subtractCounters(COUNTERS, end(100_000, 50), end(100_500, 550), restarted)).toMatchObject({ value: 500 });
    // Its interval counter does not bear it out, it is too small to tell, or it came too far.
    expect(subtractCounters(COUNTERS, end(100_000, 50), end(100_500, 7), restarted)).toMatchObject({ value: 100_500 });
    expect(subtractCounters(COUNTERS, end(100_000, 50), end(100_500, null), restarted)).toMatchObject({
      value: 100_500,
    });
    expect(subtractCounters(COUNTERS, end(900, 50), end(905, 5), restarted)).toMatchObject({ value: 905 });
    expect(subtractCounters(COUNTERS, end(2000, 50), end(2300, 300), restarted)).toMatchObject({ value: 2300 });
    expect(subtractCounters(COUNTERS, end(100_000, null), end(100_500, 500), restarted)).toMatchObject({ value: 500 });
  });

  it('gives no figure where the restart is not clear', () => {
    const unclear = knowing('not-known', false, { restart: 'not-known' });
    expect(subtractCounters(COUNTERS, end(5000, 5), end(7000, 5), unclear)).toMatchObject({
      value: null,
      basis: 'restart',
      why: 'absent-before',
      from: null,
    });
    expect(subtractCounters(COUNTERS, end(null, null), end(null, null), unclear)).toMatchObject({ why: 'absent' });
  });
});
