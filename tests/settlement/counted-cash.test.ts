import { describe, expect, it } from 'vitest';
import { sumCounted } from '../../src/settlement/counted-cash.js';
import { makeCount } from './scenario.js';

const bag = (coins: number | null, bills: number | null) => makeCount('M1', '2026-11-24', { coins, bills });

describe('sumCounted', () => {
  it('is what one bag held', () => {
    expect(sumCounted([bag(100, null)])).toEqual({ coins: 100, bills: null });
  });

  it('adds joint bags up', () => {
    expect(sumCounted([bag(100, 500), bag(20, 0)])).toEqual({ coins: 120, bills: 500 });
  });

  it('does not know a kind that one of the bags was not counted for', () => {
    expect(sumCounted([bag(100, 500), bag(20, null)])).toEqual({ coins: 120, bills: null });
  });

  it('is not known without a bag, and not 0', () => {
    expect(sumCounted([])).toEqual({ coins: null, bills: null });
  });
});
