import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type IntegrityState, readCaptures } from '../../src/read/index.js';
import { buildCapture } from '../support/build-capture.js';
import { GOOD_SEGMENTS } from '../support/check-cases.js';
import { coveredRange, fitsByChance, flipBits } from '../support/flip-bits.js';

// What CRC-16/ARC promises by mathematics, at any length: every single flipped bit, every odd number of them and every burst
// of up to 16 bits is caught, and any two less than 32,767 bits apart. So no such capture can ever be exact. That it is called
// damaged and not a variant holds but for chance: each variant tried fits a random capture once in 65,536 times. Where it
// happens, a CRC of the test's own must agree, and it must be rare.
const CAPTURE = buildCapture(GOOD_SEGMENTS);
const RANGE = coveredRange(CAPTURE);
const BITS = (RANGE.to - RANGE.from) * 8;
const bitOf = (number: number): number => RANGE.from * 8 + number;

/** The state of the read that carries the value. A flip may make a header of a line, and then there are two reads. */
function stateOf(bytes: Uint8Array): { readonly value: IntegrityState; readonly all: readonly IntegrityState[] } {
  const all = readCaptures(bytes).reads.map(({ integrity }) => integrity.state);
  return { value: all.at(-1)!, all };
}

/** Assert what the CRC promises of a capture; says whether a variant fitted by chance. */
function assertCaught(bytes: Uint8Array): boolean {
  const { value, all } = stateOf(bytes);
  expect(all).not.toContain('exact');
  if (value === 'damaged') return false;
  expect(fitsByChance(bytes, RANGE)).toBe(true);
  return true;
}

/** Assert it over random sets of bits, and how often chance may come in at most. */
function assertAllCaught(bits: fc.Arbitrary<readonly number[]>, seed: number, numRuns = 3000): void {
  let byChance = 0;
  fc.assert(
    fc.property(bits, (flipped) => {
      if (assertCaught(flipBits(CAPTURE, flipped.map(bitOf)))) byChance++;
    }),
    { seed, numRuns },
  );
  expect(byChance).toBeLessThanOrEqual(3);
}

describe('integrity of captures with flipped bits', () => {
  it('is exact with none', () => {
    expect(stateOf(CAPTURE).all).toEqual(['exact']);
    expect(fitsByChance(CAPTURE, RANGE)).toBe(false);
  });

  // On this capture chance does not come in at all.
  it('is damaged for every single one', () => {
    for (let bit = 0; bit < BITS; bit++) expect(stateOf(flipBits(CAPTURE, [bitOf(bit)])).value).toBe('damaged');
  });

  it('is damaged for every odd number', () => {
    const odd = fc.uniqueArray(fc.nat(BITS - 1), { minLength: 1, maxLength: 41 });
    assertAllCaught(
      odd.filter((bits) => bits.length % 2 === 1),
      11,
    );
  });

  it('is damaged for every burst of up to 16 bits', () => {
    const burst = fc
      .record({ at: fc.nat(BITS - 16), pattern: fc.integer({ min: 1, max: 0xffff }) })
      .map(({ at, pattern }) =>
        Array.from({ length: 16 }, (_, i) => i)
          .filter((i) => pattern & (1 << i))
          .map((i) => at + i),
      );
    assertAllCaught(burst, 12, 6000);
  });

  it('is damaged for every burst of up to 16 bits at every line ending', () => {
    // Where a capture is most likely to be taken for one that a transfer changed.
    for (let at = RANGE.from; at < RANGE.to - 1; at++) {
      if (CAPTURE[at] !== 0x0d) continue;
      for (let pattern = 1; pattern <= 0xffff; pattern += 97) {
        const bits = Array.from({ length: 16 }, (_, i) => i).filter((i) => pattern & (1 << i));
        assertCaught(
          flipBits(
            CAPTURE,
            bits.map((i) => at * 8 + i),
          ),
        );
      }
    }
  });

  it('is damaged for every two', () => {
    const two = fc.uniqueArray(fc.nat(BITS - 1), { minLength: 2, maxLength: 2 });
    assertAllCaught(two, 13);
  });

  it('is never exact for any number of flips that leave a difference the CRC can see', () => {
    const any = fc.uniqueArray(fc.nat(BITS - 1), { minLength: 1, maxLength: 200 });
    let unseen = 0;
    fc.assert(
      fc.property(any, (flipped) => {
        if (stateOf(flipBits(CAPTURE, flipped.map(bitOf))).all.includes('exact')) unseen++;
      }),
      { seed: 14, numRuns: 3000 },
    );
    // One in 65,536 by chance.
    expect(unseen).toBeLessThanOrEqual(2);
  });
});
