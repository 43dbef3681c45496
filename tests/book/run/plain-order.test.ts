import { describe, expect, it } from 'vitest';
import { isPlainOrder } from '../../../src/book/run/plain-order.js';
import { type TakenOptions, takeOne } from '../../support/taken.js';
import { captureAt } from './take-night.js';

const read = (when: string, vends: number, segments: Record<string, string> = {}, options: TakenOptions = {}) =>
  takeOne(captureAt(when, vends, segments), options);

const FIRST = '2026-11-01 10:00';
const SECOND = '2026-11-02 10:00';

describe('isPlainOrder', () => {
  const first = read(FIRST, 100);

  it('holds where everything rises, and of one read or none', () => {
    expect(isPlainOrder([])).toBe(true);
    expect(isPlainOrder([first])).toBe(true);
    expect(isPlainOrder([first, read(SECOND, 100), read('2026-11-03 10:00', 105)])).toBe(true);
    const counted = (reads: number, when: string) =>
      read(when, 100, { EA3: `EA3*1*261101*1000*R1*261101*1000*R1**${reads}*0` });
    expect(isPlainOrder([counted(4, FIRST), counted(5, SECOND)])).toBe(true);
    const at = (receivedAt: string | null) => ({ receivedAt });
    expect(isPlainOrder([read(FIRST, 1, {}, at('2026-11-01T10:05:00')), read(SECOND, 2)])).toBe(true);
  });

  it.each([
    ['a clock is missing', [read(FIRST, 100, { ID5: '' })]],
    ['clocks are equal', [first, read(FIRST, 101)]],
    ['a clock goes back', [read(SECOND, 100), read(FIRST, 101)]],
    ['a counter goes down', [first, read(SECOND, 99)]],
    ['a counter goes away', [first, read(SECOND, 101, { VA1: '' })]],
    ['the board changes', [first, read(SECOND, 101, { CB1: 'CB1*B2' })]],
    ['the board is not said any more', [first, read(SECOND, 101, { CB1: '' })]],
    ['the serial number changes', [first, read(SECOND, 101, { ID1: 'ID1*S2*MODEL-A****A1' })]],
    [
      'the machine counts fewer reads',
      [4, 3].map((n, i) => read([FIRST, SECOND][i]!, 100 + i, { EA3: `EA3*1********${n}` })),
    ],
    [
      'times received go back',
      [
        read(FIRST, 100, {}, { receivedAt: '2026-11-02T11:00:00' }),
        read(SECOND, 101, {}, { receivedAt: '2026-11-02T10:30:00' }),
      ],
    ],
    [
      'one is received before the clock of the one before',
      [read(SECOND, 1, {}, { receivedAt: '2026-11-05T10:00:00' }), read('2026-11-03 10:00', 2)],
    ],
  ])('does not hold where %s', (_, reads) => {
    expect(isPlainOrder(reads)).toBe(false);
  });
});
