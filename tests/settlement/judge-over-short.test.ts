import { describe, expect, it } from 'vitest';
import { compareCounted, stateOf } from '../../src/settlement/judge-over-short.js';

const cash = (coins: number | null, bills: number | null) => ({ coins, bills });

describe('compareCounted', () => {
  it.each([
    [
      'counted less expected, by kind and in total',
      cash(1000, 500),
      cash(900, 700),
      { coins: -100, bills: 200, total: 100 },
    ],
    [
      'a negative expectation: more was filled than collected',
      cash(-300, 0),
      cash(0, 0),
      { coins: 300, bills: 0, total: 300 },
    ],
    ['no bills counted where none are expected', cash(1000, 0), cash(1000, null), { coins: 0, bills: 0, total: 0 }],
    [
      'nothing counted of a kind that is expected',
      cash(1000, 500),
      cash(1000, null),
      { coins: 0, bills: null, total: null },
    ],
    [
      'a kind of which it is not known what to expect',
      cash(1000, null),
      cash(1000, 0),
      { coins: 0, bills: null, total: null },
    ],
    ['nothing known and nothing counted', cash(0, null), cash(0, null), { coins: 0, bills: null, total: null }],
    [
      'a sum past the safe integers',
      cash(-1, 0),
      cash(Number.MAX_SAFE_INTEGER, 0),
      { coins: null, bills: 0, total: null },
    ],
  ])('%s', (_, expected, counted, result) => {
    expect(compareCounted(expected, counted)).toEqual(result);
  });
});

describe('stateOf', () => {
  // Over/short within a tolerance is agreed: common practice.
  const none = { amount: 0, basisPoints: 0 };
  const half = { amount: 0, basisPoints: 50 };

  it.each([
    ['nothing off', 0, none, 'agreed'],
    ['one cent over without tolerance', 1, none, 'over'],
    ['one cent short without tolerance', -1, none, 'short'],
    ['as much as the amount', -200, { amount: 200, basisPoints: 0 }, 'agreed'],
    ['a cent more than the amount', -201, { amount: 200, basisPoints: 0 }, 'short'],
    ['as much as 0.5 % of 199.99 comes to, rounded down', 99, half, 'agreed'],
    ['what rounding up would have allowed', 100, half, 'over'],
    ['the percentage where it is larger', 99, { amount: 50, basisPoints: 50 }, 'agreed'],
    ['the amount where it is larger', 150, { amount: 150, basisPoints: 50 }, 'agreed'],
  ] as const)('%s', (_, off, tolerance, state) => {
    expect(stateOf(off, cash(14_999, 5000), tolerance)).toBe(state);
  });

  it('takes a percentage of what was expected, also where that is below nothing', () => {
    expect(stateOf(5, cash(-1000, 0), half)).toBe('agreed');
    expect(stateOf(6, cash(-1000, 0), half)).toBe('over');
  });

  it('allows the amount alone where a percentage cannot be worked out', () => {
    expect(stateOf(5, cash(null, 0), half)).toBe('over');
    expect(stateOf(5, cash(Number.MAX_SAFE_INTEGER, 0), { amount: 5, basisPoints: 50 })).toBe('agreed');
  });
});
