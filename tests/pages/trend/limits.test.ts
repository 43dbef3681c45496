import { describe, expect, it } from 'vitest';
import { binomialAtLeast, logFactorial, poissonAtMost } from '../../../src/pages/trend/binomial-tail.js';
import { LARGEST_COUNT, limitMean, limitWait } from '../../../src/pages/trend/limits.js';

/** The binomial tail summed term by term, each from its factors: slow, and another way than the one that is tested. */
function sumBinomial(k: number, n: number, p: number): number {
  let sum = 0;
  for (let j = k; j <= n; j++) {
    let term = 1;
    for (let i = 1; i <= j; i++) term *= ((n - j + i) / i) * p;
    sum += term * (1 - p) ** (n - j);
  }
  return sum;
}

/** Probability that a beta variable is at most x, by Simpson's rule over its density. */
function integrateBeta(a: number, b: number, x: number): number {
  const density = (t: number): number => t ** (a - 1) * (1 - t) ** (b - 1);
  const simpson = (to: number): number => {
    const steps = 2000;
    let sum = density(0) + density(to);
    for (let i = 1; i < steps; i++) sum += density((to * i) / steps) * (i % 2 === 0 ? 2 : 4);
    return (sum * to) / steps / 3;
  };
  return simpson(x) / simpson(1);
}

describe('limitMean', () => {
  // Exact 95 % limits of a Poisson count as tables give them after Garwood, Biometrika 28, 1936 (from memory).
  it.each([
    [0, 0, 3.689],
    [1, 0.0253, 5.572],
    [2, 0.2422, 7.225],
    [5, 1.623, 11.668],
    [10, 4.795, 18.39],
    [20, 12.217, 30.888],
    [100, 81.364, 121.627],
  ])('of %i are %f and %f', (count, low, high) => {
    const limits = limitMean(count)!;
    expect(limits.low).toBeCloseTo(low, low < 1 ? 4 : 3);
    expect(limits.high).toBeCloseTo(high, 3);
  });

  it('are not given for what is no count, or too large', () => {
    expect(limitMean(-1)).toBeNull();
    expect(limitMean(LARGEST_COUNT + 1)).toBeNull();
    expect(limitMean(LARGEST_COUNT)!.low).toBeLessThan(LARGEST_COUNT);
  });
});

describe('limitWait', () => {
  it('leaves 2.5 in 100 on either side, by an integral over the beta density', () => {
    for (const [left, count] of [
      [1, 1],
      [3, 7],
      [10, 10],
      [12, 2],
    ] as const) {
      const { low, high } = limitWait(left, count)!;
      expect(integrateBeta(left, count + 1, low / (1 + low))).toBeCloseTo(0.025, 5);
      expect(integrateBeta(left, count, high! / (1 + high!))).toBeCloseTo(0.975, 5);
    }
  });

  it('has no upper end where nothing was sold, and is not given where nothing is left', () => {
    expect(limitWait(5, 0)!.high).toBeNull();
    expect(limitWait(0, 5)).toBeNull();
    expect(limitWait(1, -1)).toBeNull();
    expect(limitWait(1, LARGEST_COUNT + 1)).toBeNull();
  });
});

describe('tails of distributions', () => {
  it('of the binomial are what its terms sum up to', () => {
    for (const [k, n, p] of [
      [1, 1, 0.3],
      [3, 10, 0.5],
      [9, 10, 0.1],
      [40, 60, 0.7],
    ] as const) {
      expect(binomialAtLeast(k, n, p)).toBeCloseTo(sumBinomial(k, n, p), 12);
    }
  });

  it('of the Poisson distribution are what its terms sum up to', () => {
    for (const [k, mean] of [
      [0, 0.5],
      [3, 10],
      [12, 4],
      [30, 29.5],
    ] as const) {
      let term = Math.exp(-mean);
      let sum = term;
      for (let j = 1; j <= k; j++) {
        term *= mean / j;
        sum += term;
      }
      expect(poissonAtMost(k, mean)).toBeCloseTo(sum, 12);
    }
  });

  it('rest on factorials that are exact', () => {
    let exact = 1n;
    for (let n = 1; n <= 150; n++) {
      exact *= BigInt(n);
      expect(logFactorial(n)).toBeCloseTo(Math.log(Number(exact)), 9);
    }
    expect(logFactorial(0)).toBe(0);
  });
});
