import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../src/findings/index.js';
import { VisitTeller } from '../../src/settlement/visit-teller.js';

const teller = (decimals: number | null = 2, currency: string | null = 'EUR') =>
  new VisitTeller({ machine: 'M1', file: 'counts.csv', row: 3 }, { currency, decimals });

describe('VisitTeller', () => {
  it('says things at the place of the visit, in their order', () => {
    const said = teller();
    said.say('short', 'first', { advice: 'count' });
    said.say('unseen-reset', 'second', { severity: 'doubt' });
    said.add([makeFinding('price-changed', 'third', { file: 'b.dex' })]);
    expect(said.findings).toEqual([
      {
        code: 'short',
        severity: 'doubt',
        message: 'first',
        machine: 'M1',
        file: 'counts.csv',
        row: 3,
        advice: 'count',
      },
      { code: 'unseen-reset', severity: 'doubt', message: 'second', machine: 'M1', file: 'counts.csv', row: 3 },
      { code: 'price-changed', severity: 'note', message: 'third', file: 'b.dex' },
    ]);
  });

  it('writes money in its unit, whatever its decimals', () => {
    expect([teller().money(1250), teller().signed(1250), teller().signed(-5), teller().signed(0)]).toEqual([
      '12.50 EUR',
      '+12.50 EUR',
      '-0.05 EUR',
      '0.00 EUR',
    ]);
    expect(teller(0, 'JPY').money(1250)).toBe('1250 JPY');
    expect(teller(3, 'KWD').money(1250)).toBe('1.250 KWD');
    expect(teller(null, null).money(1250)).toBe('1250 (decimals not known)');
  });

  it.each([
    [{ coins: 100, bills: 500 }, '1.00 EUR in coins and 5.00 EUR in bills'],
    [{ coins: 100, bills: 0 }, '1.00 EUR in coins'],
    [{ coins: null, bills: 500 }, '5.00 EUR in bills'],
    [{ coins: -100, bills: null }, '-1.00 EUR in coins'],
    [{ coins: 0, bills: 0 }, '0.00 EUR'],
    [{ coins: 0, bills: null }, '0.00 EUR'],
    [{ coins: null, bills: null }, ''],
  ])('writes %j as "%s"', (cash, text) => {
    expect(teller().cash(cash)).toBe(text);
  });
});
