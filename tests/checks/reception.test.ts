import { describe, expect, it } from 'vitest';
import { describeReception, nameSignal, signalCheck } from '../../src/checks/reception.js';
import { checkCases, PLAIN_CONTEXT } from '../support/check-cases.js';

checkCases('signal', signalCheck, {
  clean: [
    { name: 'a weak signal beside a whole capture', context: { signal: 3 } },
    { name: 'a good signal beside a damaged capture', capture: { crc: 'wrong' }, context: { signal: 13 } },
    { name: 'a damaged capture of unknown signal', capture: { crc: 'wrong' } },
  ],
  failing: [
    {
      name: 'a marginal signal beside a damaged capture',
      capture: { crc: 'wrong' },
      context: { signal: 12 },
      code: 'weak-signal',
      severity: 'note',
      message: /a marginal signal \(12 of 31\): gaps in transmission are to be expected\.$/,
    },
    {
      name: 'a weak signal beside a cut capture',
      capture: { cutAt: 200 },
      context: { signal: 6 },
      code: 'weak-signal',
      severity: 'note',
      message: /a weak signal \(6 of 31\)/,
    },
  ],
});

describe('signal in words (common practice)', () => {
  it.each([
    [31, 'good'],
    [13, 'good'],
    [12, 'marginal'],
    [7, 'marginal'],
    [6, 'weak'],
    [1, 'weak'],
  ])('calls %i of 31 %s', (strength, word) => {
    expect(nameSignal(strength)).toBe(word);
  });

  it.each([
    [null, null, ''],
    ['2026-11-24T10:20:00', null, ' It was received 2026-11-24 10:20.'],
    [null, 9, ' It was received with a marginal signal (9 of 31).'],
  ])('says of a capture received %s with %s: "%s"', (receivedAt, signal, words) => {
    expect(describeReception({ ...PLAIN_CONTEXT, receivedAt, signal })).toBe(words);
  });
});
