import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { classifyNumber, type NumberState, parseWholeNumber } from '../../src/segments/index.js';
import { bytesOf } from '../support/latin1-bytes.js';

const CASES: readonly (readonly [string, number | null, NumberState])[] = [
  ['0', 0, 'number'],
  ['12050', 12050, 'number'],
  ['+7', 7, 'number'],
  ['-7', -7, 'number'],
  ['-0', 0, 'number'],
  ['+0', 0, 'number'],
  ['000000000000000000000042', 42, 'number'],
  ['9007199254740991', 9007199254740991, 'number'],
  ['-9007199254740991', -9007199254740991, 'number'],
  ['9007199254740992', null, 'too-large'],
  ['9007199254740993', null, 'too-large'],
  ['-9007199254740992', null, 'too-large'],
  ['99999999999999999', null, 'too-large'],
  ['9'.repeat(400), null, 'too-large'],
  ['', null, 'empty'],
  ['+', null, 'not-digits'],
  ['-', null, 'not-digits'],
  ['--1', null, 'not-digits'],
  ['+-1', null, 'not-digits'],
  ['1-', null, 'not-digits'],
  [' 5', null, 'not-digits'],
  ['5 ', null, 'not-digits'],
  ['1 000', null, 'not-digits'],
  ['12.5', null, 'not-digits'],
  ['12,50', null, 'not-digits'],
  ['1e3', null, 'not-digits'],
  ['0x10', null, 'not-digits'],
  ['12A', null, 'not-digits'],
  ['/', null, 'not-digits'],
  [':', null, 'not-digits'],
  ['²', null, 'not-digits'],
  [`${'9'.repeat(400)}x`, null, 'not-digits'],
];

describe('parseWholeNumber and classifyNumber', () => {
  it.each(CASES)('%j is %j: %s', (text, value, state) => {
    const bytes = bytesOf(`7${text}7`);
    // toBe tells 0 from -0.
    expect(parseWholeNumber(bytes, 1, bytes.length - 1)).toBe(value);
    expect(classifyNumber(bytes, 1, bytes.length - 1)).toBe(state);
  });

  it('agree with BigInt on every text of signs and digits', () => {
    const character = fc.constantFrom(...'0123456789+- .');
    const text = fc.oneof(fc.string({ unit: character, maxLength: 5 }), fc.stringMatching(/^[+-]?[0-9]{1,20}$/));
    fc.assert(
      fc.property(text, (written) => {
        const bytes = bytesOf(written);
        const isWhole = /^[+-]?[0-9]+$/.test(written);
        const exact = isWhole ? BigInt(written.replace('+', '')) : 0n;
        const isSafe = exact <= BigInt(Number.MAX_SAFE_INTEGER) && exact >= BigInt(Number.MIN_SAFE_INTEGER);
        expect(parseWholeNumber(bytes, 0, bytes.length)).toBe(isWhole && isSafe ? Number(exact) : null);
      }),
      { numRuns: 2000 },
    );
  });
});
