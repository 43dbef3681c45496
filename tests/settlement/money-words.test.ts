import { describe, expect, it } from 'vitest';
import { sayDifference, sayFloor, sayNotKnown } from '../../src/settlement/money-words.js';
import { VisitTeller } from '../../src/settlement/visit-teller.js';

// The words themselves are held beside the cases they are said of, in judge-visit.test.ts; here what is left of them.
function say(saying: (teller: VisitTeller) => void): string[] {
  const teller = new VisitTeller({ machine: 'M1' }, { currency: 'EUR', decimals: 2 });
  saying(teller);
  return teller.findings.map(({ message }) => message);
}

describe('words on money', () => {
  it('leave sums out that cannot be given exactly', () => {
    const expected = { coins: Number.MAX_SAFE_INTEGER, bills: 1 };
    expect(say((teller) => sayDifference(teller, 'short', expected, { coins: -5, bills: 0, total: -5 }, 0, 0))).toEqual(
      ['0.05 EUR short (coins -0.05 EUR).'],
    );
    const most = { coins: Number.MAX_SAFE_INTEGER, bills: 0 };
    expect(say((teller) => sayDifference(teller, 'over', most, { coins: 5, bills: null, total: 5 }, 0, 0))).toEqual([
      '0.05 EUR over (coins +0.05 EUR).',
    ]);
  });

  it('count captures that may have been visits, where a missing bag would show', () => {
    const expected = { coins: 100, bills: 0 };
    const tell = (state: 'over' | 'short', coins: number): string =>
      say((teller) => sayDifference(teller, state, expected, { coins, bills: 0, total: coins }, 0, 3))[0]!;
    expect(tell('short', -5)).toContain('Since the last collection 3 captures were taken, and nothing says why');
    expect(tell('over', 5)).not.toContain('captures were taken');
  });

  it('name no floor where nothing is known of it', () => {
    expect(say((teller) => sayFloor(teller, [], { coins: null, bills: null }))).toEqual([
      'There are no lifetime counters, and nothing shows that nobody cleared the others since the last collection.',
    ]);
  });

  it('tell both kinds apart', () => {
    const messages = say((teller) => sayNotKnown(teller, { coins: 500, bills: null }, { coins: null, bills: 5 }, []));
    expect(messages).toEqual([
      '5.00 EUR is expected in coins, and the sheet gives no count of them.',
      'What is expected in bills is not known: the counters do not give it; what is said of the interval tells why.',
    ]);
  });
});
