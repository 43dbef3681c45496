import { describe, expect, it } from 'vitest';
import { recompute } from '../../src/explain/index.js';
import { constant, makeStep, negate, sumOf, unknownStep, withheld } from '../../src/explain/trace-step.js';

const money = (value: number) => constant('amount', value);

describe('recompute', () => {
  it('adds parts, and takes away those with a minus', () => {
    const step = sumOf('sum', 'money', [money(500), negate(money(120)), negate(negate(money(1)))]);
    expect(step.value).toBe(381);
    expect(recompute(step)).toBe(381);
  });

  it('multiplies the parts of a product', () => {
    const parts = [constant('vends', 12, 'count'), money(150)];
    expect(recompute(makeStep({ how: 'product', label: 'p', value: null, unit: 'money', parts }))).toBe(1800);
  });

  it('does not believe the value that stands on a sum', () => {
    expect(recompute({ ...sumOf('sum', 'money', [money(5)]), value: 99 })).toBe(5);
  });

  it('is not known where a part is not', () => {
    const unknown = unknownStep('part', 'money', 'It is not there.', [money(1)]);
    expect(recompute(unknown)).toBeNull();
    expect(recompute(sumOf('sum', 'money', [money(5), unknown]))).toBeNull();
    expect(recompute(sumOf('sum', 'money', []))).toBe(0);
  });
});

describe('withheld', () => {
  it('keeps what there is, and says why nothing is made of it', () => {
    const step = withheld(sumOf('sum', 'money', [money(5)]));
    expect(step).toMatchObject({ how: 'unknown', value: null, parts: [{ value: 5 }] });
    expect(step.note).toMatch(/not in the same money/);
  });
});
