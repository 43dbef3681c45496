import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ATTENTION_CAUSES, type AttentionItem, orderAttention, weighStake } from '../../src/attention/index.js';

function item(given: Partial<AttentionItem> & { amount?: number | null; perDay?: number | null } = {}): AttentionItem {
  const { amount = null, perDay = null, ...rest } = given;
  return {
    machine: 'M1',
    location: null,
    route: null,
    driver: null,
    cause: 'clock-wrong',
    severity: 'doubt',
    what: 'Something.',
    stake: { amount, bound: amount === null ? null : 'exact', perDay, how: '' },
    currency: 'EUR',
    decimals: 2,
    todo: '',
    cautions: [],
    codes: [],
    findings: [],
    ...rest,
  };
}

const arbitraryItem = fc
  .record({
    machine: fc.constantFrom('M1', 'M2', 'M3', null),
    cause: fc.constantFrom(...ATTENTION_CAUSES),
    severity: fc.constantFrom('fault' as const, 'doubt' as const),
    what: fc.constantFrom('This.', 'That.'),
    amount: fc.option(fc.nat(300)),
    perDay: fc.option(fc.nat(50)),
    currency: fc.constantFrom('EUR', 'JPY'),
    location: fc.constantFrom('Here', 'There'),
  })
  .map(item);

describe('orderAttention', () => {
  it('puts the most money first, a day of it included', () => {
    const list = [
      item({ amount: 100 }),
      item({ amount: 80, perDay: 30 }),
      item({ perDay: 105 }),
      item({ amount: 900 }),
    ];
    expect(orderAttention(list).map(({ stake }) => weighStake(stake))).toEqual([900, 110, 105, 100]);
  });

  it('puts what is not known after what is, faults first, and what costs nothing last', () => {
    const list = [item({ amount: 0 }), item(), item({ severity: 'fault' }), item({ amount: 1 })];
    expect(orderAttention(list).map(({ severity, stake }) => [severity, stake.amount])).toEqual([
      ['doubt', 1],
      ['fault', null],
      ['doubt', null],
      ['doubt', 0],
    ]);
  });

  it('does not compare currencies: each has its turn', () => {
    const list = [
      item({ amount: 5, currency: 'EUR' }),
      item({ amount: 9, currency: 'EUR' }),
      item({ amount: 4000, currency: 'JPY', decimals: 0 }),
      item({ amount: 8000, currency: 'JPY', decimals: 0 }),
      item({ amount: 3000, currency: 'JPY', decimals: 0 }),
    ];
    expect(orderAttention(list).map(({ stake }) => stake.amount)).toEqual([9, 8000, 5, 4000, 3000]);
  });

  it('goes by cause and machine where nothing else tells', () => {
    const list = [
      item({ machine: 'M2' }),
      item({ machine: null }),
      item({ machine: 'M1' }),
      item({ machine: 'M9', cause: 'read-again' }),
    ];
    expect(orderAttention(list).map(({ machine }) => machine)).toEqual(['M9', null, 'M1', 'M2']);
  });

  it('is one order, however the items came (total and stable)', () => {
    fc.assert(
      fc.property(fc.array(arbitraryItem, { maxLength: 12 }), fc.nat(), (items, seed) => {
        const shuffled = items.toSorted((a, b) => hash(a, seed) - hash(b, seed));
        expect(orderAttention(shuffled)).toEqual(orderAttention(items));
        expect(orderAttention(orderAttention(items))).toEqual(orderAttention(items));
      }),
    );
  });

  it('loses none, and within a currency never puts less money first', () => {
    fc.assert(
      fc.property(fc.array(arbitraryItem, { maxLength: 12 }), (items) => {
        const ordered = orderAttention(items);
        expect(new Set(ordered)).toEqual(new Set(items));
        for (const currency of ['EUR', 'JPY']) {
          const weights = ordered.filter((one) => one.currency === currency).map(({ stake }) => weighStake(stake));
          const rank = (weight: number | null): number => (weight === null ? 0.5 : weight);
          expect(weights.map(rank)).toEqual(weights.map(rank).toSorted((a, b) => b - a));
        }
      }),
    );
  });
});

/** Some number that depends on the item, so that sorting by it is a shuffle. */
function hash(one: AttentionItem, seed: number): number {
  let sum = seed;
  for (const character of JSON.stringify(one)) sum = (sum * 31 + character.charCodeAt(0)) % 1_000_003;
  return sum;
}
