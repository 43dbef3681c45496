import { describe, expect, it } from 'vitest';
import { compareEras, orderReads } from '../../src/interval/eras.js';
import type { TakenRead } from '../../src/interval/index.js';
import { readOf } from '../support/interval-cases.js';
import type { TakenOptions } from '../support/taken.js';

/** A read on a day of November 2026 at which all counters stand as far as said. */
function read(
  file: string,
  day: number,
  counted: number,
  more: readonly string[] = [],
  options: TakenOptions = {},
): TakenRead {
  const clock = `ID5*2611${String(day).padStart(2, '0')}*1000`;
  const counters = [`VA1*${counted * 100}*${counted}`, `CA3*****${counted * 100}*${counted * 100}*0*0`];
  const given = new Set(more.map((segment) => segment.split('*')[0]));
  return readOf('to', [...[clock, ...counters].filter((one) => !given.has(one.split('*')[0])), ...more], {
    file,
    ...options,
  });
}
const files = (...reads: readonly TakenRead[]): string =>
  orderReads([...reads].reverse())
    .map((era) => era.map(({ file }) => file).join(''))
    .join(' | ');

describe('orderReads: eras', () => {
  it('is one where board, serial number and initialisation agree', () => {
    expect(files(read('a', 1, 100), read('b', 2, 120), read('c', 3, 130))).toBe('abc');
  });

  it('starts one with another board', () => {
    expect(files(read('a', 1, 100), read('b', 2, 120), read('c', 3, 5, ['CB1*B2']), read('d', 4, 9, ['CB1*B2']))).toBe(
      'ab | cd',
    );
  });

  it('is one where the machine number was set anew, also where it was set back', () => {
    const set = ['ID1*4711*MODEL-A****A1'];
    expect(files(read('a', 1, 100), read('b', 2, 120, set), read('c', 3, 130))).toBe('abc');
    // By the counters, whatever a clock says that was set wrong.
    expect(files(read('a', 5, 100, ['EA3*********1']), read('b', 2, 120, [...set, 'EA3*********2']))).toBe('ab');
    expect(files(read('a', 1, 100), read('b', 2, 5, set))).toBe('a | b');
  });

  it('starts one with another date of initialisation', () => {
    const [old, next] = [['EA4*240304*0900'], ['EA4*261103*0900']];
    expect(files(read('a', 1, 100, old), read('b', 3, 5, next), read('c', 4, 9, next))).toBe('a | bc');
  });

  it('starts one where the counters fall to near zero, though the date stays', () => {
    const date = ['EA4*240304*0900'];
    expect(files(read('a', 1, 500, date), read('b', 2, 510, date), read('c', 3, 5, date), read('d', 4, 9, date))).toBe(
      'ab | cd',
    );
  });

  it('starts one where the counters fall though the reads were counted anew', () => {
    const [a, b] = [read('a', 1, 500, ['EA3*********90']), read('b', 2, 5, ['EA3*********1'])];
    expect(files(a, b)).toBe('a | b');
  });

  it('goes by the time received as well: a fall in either order splits', () => {
    const received = (day: number): TakenOptions => ({ receivedAt: `2026-11-0${day}T10:05:00` });
    expect(files(read('a', 1, 500, [], received(1)), read('b', 2, 5, [], received(2)))).toBe('a | b');
    // A late arrival: by the time received nothing fell, by the clocks it did.
    expect(files(read('a', 1, 500, [], received(4)), read('b', 2, 5, [], received(2)))).toBe('b | a');
  });

  it('starts one where all counters are gone at once, as on a machine that leaves zeros out', () => {
    const blank = readOf('to', ['ID5*261103*1000'], { file: 'b' });
    expect(files(read('a', 1, 500), blank, read('c', 4, 9))).toBe('a | bc');
  });

  it('looks for no fall where times are missing, since it would not be known which way it goes', () => {
    expect(files(read('a', 1, 500, ['ID5', 'EA3*********9']), read('b', 2, 5, ['EA3*********1']))).toBe('ba');
  });

  it('puts eras in order by their first time, then by name', () => {
    expect(files(read('c', 5, 5, ['CB1*B2']), read('a', 1, 100), read('b', 2, 120))).toBe('ab | c');
    expect(files(read('b', 1, 100), read('a', 1, 5, ['CB1*B2']))).toBe('a | b');
    expect(files(read('b', 1, 100, ['ID5']), read('a', 1, 5, ['CB1*B2']))).toBe('b | a');
  });
});

describe('orderReads: reads that do not say all', () => {
  it('go with the reads before them in time that they fit', () => {
    const reads = [read('a', 1, 100), read('b', 2, 110, ['CB1']), read('c', 3, 120), read('d', 4, 5, ['CB1*B2'])];
    expect(files(...reads, read('e', 5, 9, ['CB1']))).toBe('abc | de');
  });

  it('go with those after them where they fit none before', () => {
    expect(files(read('a', 1, 100, ['CB1']), read('b', 2, 110), read('c', 3, 120))).toBe('abc');
    const [old, next] = [
      ['CB1*B1', 'EA4*240304*0900'],
      ['CB1*B2', 'EA4*261103*0900'],
    ];
    expect(files(read('a', 1, 100, old), read('b', 3, 2, ['CB1', next[1]!]), read('c', 4, 5, next))).toBe('a | bc');
  });

  it('stay apart where they fit neither', () => {
    const [old, next] = [
      ['CB1*B1', 'EA4*240304*0900'],
      ['CB1*B2', 'EA4*261105*0900'],
    ];
    const between = read('b', 3, 2, ['CB1', 'EA4*261103*0900']);
    expect(files(read('a', 1, 100, old), between, read('c', 5, 5, next))).toBe('a | b | c');
  });

  it('are all one where no read says anything', () => {
    const bare = ['CB1', 'ID1*000*M****A1'];
    expect(files(read('a', 1, 100, bare), read('b', 2, 110, bare))).toBe('ab');
  });
});

describe('compareEras', () => {
  const received = (time: string): TakenOptions => ({ receivedAt: `2026-11-${time}` });
  it('goes by the time received where all reads have it, else by the clocks', () => {
    const [a, b] = [read('a', 1, 1, [], received('05T10:00:00')), read('b', 2, 1, [], received('04T10:00:00'))];
    expect(compareEras([a], [b])).toEqual({ isApart: false, isByReceived: true });
    expect(compareEras([a], [read('b', 2, 1)])).toEqual({ isApart: true, isByReceived: false });
    expect(compareEras([b], [a]).isApart).toBe(false);
    // Another board may come with a clock that was never set; a memory that was cleared is told by its times alone.
    expect(compareEras([b], [read('a', 1, 1, ['CB1*B2'], received('05T10:00:00'))]).isApart).toBe(true);
  });

  it('says that they lie in each other, or that it is not known', () => {
    expect(compareEras([read('a', 1, 1), read('c', 3, 1)], [read('b', 2, 1)]).isApart).toBe(false);
    expect(compareEras([read('a', 1, 1), read('b', 2, 1)], [read('d', 4, 1), read('c', 3, 1)]).isApart).toBe(true);
    expect(compareEras([read('a', 1, 1)], [read('b', 2, 1, ['ID5'])]).isApart).toBe(false);
    expect(compareEras([read('a', 1, 1, ['ID5'])], [read('b', 2, 1)]).isApart).toBe(false);
  });
});
