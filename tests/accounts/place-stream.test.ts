import { describe, expect, it } from 'vitest';
import { sortIntoStreams } from '../../src/accounts/card-streams.js';
import { dayNumber, writeDay } from '../../src/accounts/days.js';
import { type PlacedStream, placeStream, type SheetFrame } from '../../src/accounts/place-stream.js';
import { readDeposits } from '../../src/sheets/index.js';
import { EURO } from '../support/sheet-reading.js';
import { type Counters, intervalsOf, rosterOf } from './machine-days.js';

const roster = rosterOf('machine,asset\nM1,A1');
const FRAME: SheetFrame = {
  days: { first: dayNumber('2026-11-01'), last: dayNumber('2026-11-30') },
  windowDays: 3,
  cycleDays: 1,
  moveMinutes: 0,
};

/** Reads by `day time` with what was sold up to each since the one before. */
function place(
  reads: readonly (readonly [when: string | null, sold: number])[],
  rows: string[] = [],
  frame: Partial<SheetFrame> = {},
) {
  let card = 1000;
  const counters = reads.map(([when, sold], i): Counters => {
    card += sold;
    return { at: when === null ? null : `2026-11-${when}`, cash: 10_000 * i, card };
  });
  const content = ['machine,date,gross,period_from,period_to', ...rows].join('\n');
  const { rows: deposits } = readDeposits({ file: 'd.csv', content }, EURO);
  const { streams } = sortIntoStreams(intervalsOf(counters, roster), deposits, roster, 3);
  return placeStream(streams[0]!, { ...FRAME, ...frame });
}

const day = (number: number): string => (Number.isFinite(number) ? writeDay(number).slice(8) : String(number));
const sales = ({ sales: placed }: PlacedStream): string[] =>
  placed.map(({ dated: { amount, span, mayBeLeft }, open, beginsRagged, endsRagged }) =>
    [
      `${day(span.first)}-${day(span.last)}`,
      amount,
      beginsRagged || endsRagged ? 'ragged' : 'whole',
      open ?? 'due',
      mayBeLeft ?? 'must',
    ].join(' '),
  );
const deposits = ({ deposits: placed }: PlacedStream): string[] =>
  placed.map(({ dated: { span, mayBeLeft, owns } }) =>
    [`${day(span.first)}-${day(span.last)}`, mayBeLeft ?? 'must', owns === null ? 'none' : owns.join('-')].join(' '),
  );

describe('placeStream', () => {
  it('gives sales between reads at night their whole days', () => {
    expect(
      sales(
        place([
          ['02 00:05', 0],
          ['03 00:05', 5],
          ['05 23:55', 7],
        ]),
      ),
    ).toEqual(['02-02 5 whole due must', '03-05 7 whole due must']);
  });

  it('joins sales over reads inside of a day, but for those before the first night and after the last', () => {
    const reads = [
      ['01 09:00', 0],
      ['01 18:00', 1],
      ['02 00:05', 2],
      ['02 11:00', 3],
      ['02 15:00', 0],
      ['03 00:05', 5],
      ['03 12:00', 7],
      ['04 12:00', 9],
    ] as const;
    expect(sales(place(reads))).toEqual([
      '01-01 1 ragged due either',
      '01-01 2 ragged due before',
      '02-02 8 whole due must',
      '03-03 7 ragged due after',
      '03-04 9 ragged due either',
    ]);
  });

  it('takes what was sold between two reads about one midnight to be of either day', () => {
    expect(
      sales(
        place([
          ['02 00:05', 0],
          ['02 23:20', 5],
          ['02 23:50', 1],
          ['04 00:05', 7],
        ]),
      ),
    ).toEqual(['02-02 5 whole due must', '02-03 1 ragged due either', '03-03 7 whole due must']);
  });

  it('leaves out where nothing was sold', () => {
    expect(
      sales(
        place([
          ['02 00:05', 0],
          ['03 00:05', 0],
          ['04 00:05', 5],
        ]),
      ),
    ).toEqual(['03-03 5 whole due must']);
  });

  it('opens sales that may have been paid before the sheet, or are not due by its end', () => {
    const reads = [
      ['01 00:05', 0],
      ['03 00:05', 1],
      ['05 00:05', 2],
      ['07 00:05', 3],
    ] as const;
    const days = { first: dayNumber('2026-11-02'), last: dayNumber('2026-11-07') };
    expect(sales(place(reads, [], { days }))).toEqual([
      '01-02 1 whole before-sheet before',
      '03-04 2 whole due must',
      '05-06 3 whole not-due after',
    ]);
    // Paid every other day: what was sold on the 4th can come on the 8th.
    expect(sales(place(reads, [], { days, cycleDays: 2 }))[1]).toBe('03-04 2 whole not-due after');
    expect(sales(place(reads, [], { days, windowDays: 4 }))[1]).toBe('03-04 2 whole not-due after');
    expect(sales(place(reads, [], { days: null })).every((line) => line.includes('not-due'))).toBe(true);
  });

  it('cuts days where the processor does', () => {
    const reads = [
      ['02 06:00', 0],
      ['03 06:00', 5],
    ] as const;
    expect(sales(place(reads))).toEqual(['02-03 5 ragged due either']);
    expect(sales(place(reads, [], { moveMinutes: -360 }))).toEqual(['02-02 5 whole due must']);
  });

  it('gives a deposit its stated days, else those since the one before it and the window', () => {
    const reads = [
      ['01 00:05', 0],
      ['21 00:05', 5],
    ] as const;
    expect(
      deposits(
        place(reads, [
          'M1,2026-11-10,1,2026-11-05,2026-11-08',
          'M1,2026-11-11,1,2026-11-09,',
          'M1,2026-11-15,1,,',
          'M1,2026-11-15,1,,',
          'M1,2026-11-19,1,,',
        ]),
      ),
    ).toEqual(['05-08 must none', '09-11 must none', '08-15 must none', '08-15 must none', '12-19 must none']);
  });

  it('knows which deposits can be for sales outside of the reads', () => {
    const reads = [
      ['05 00:05', 0],
      ['11 00:05', 5],
    ] as const;
    expect(deposits(place(reads, ['M1,2026-11-10,1,,', 'M1,2026-11-11,1,,']))).toEqual([
      '-Infinity-10 must none',
      '07-11 after none',
    ]);
    expect(deposits(place(reads, ['M1,2026-11-10,1,,'], { cycleDays: 3 }))).toEqual(['-Infinity-10 before none']);
    expect(deposits(place(reads, ['M1,2026-11-10,1,,'], { cycleDays: null }))).toEqual(['-Infinity-10 before none']);
    expect(deposits(place(reads, ['M1,2026-11-20,1,2026-11-01,2026-11-19']))).toEqual(['01-19 either 0-1']);
    // The first and the last day of the reads are not whole.
    const byDay = [
      ['05 10:00', 0],
      ['11 10:00', 5],
    ] as const;
    expect(
      deposits(place(byDay, ['M1,2026-11-12,1,2026-11-05,2026-11-10', 'M1,2026-11-12,1,2026-11-06,2026-11-11'])),
    ).toEqual(['05-10 before none', '06-11 after none']);
  });

  it('gives sales to the one deposit whose stated days hold them, and then they are due', () => {
    const reads = [
      ['01 00:05', 0],
      ['02 00:05', 1],
      ['03 00:05', 2],
      ['04 00:05', 3],
      ['05 00:05', 4],
    ] as const;
    const days = { first: dayNumber('2026-11-05'), last: dayNumber('2026-11-05') };
    const placed = place(reads, ['M1,2026-11-05,1,2026-11-01,2026-11-02', 'M1,2026-11-05,1,2026-11-04,2026-11-04'], {
      days,
    });
    expect(deposits(placed)).toEqual(['01-02 must 0-2', '04-04 must 3-4']);
    expect(sales(placed)).toEqual([
      '01-01 1 whole due must',
      '02-02 2 whole due must',
      '03-03 3 whole before-sheet before',
      '04-04 4 whole due must',
    ]);
    expect(
      deposits(place(reads, ['M1,2026-11-05,1,2026-11-01,2026-11-02', 'M1,2026-11-05,1,2026-11-02,2026-11-03'])),
    ).toEqual(['01-02 must 0-1', '02-03 must 2-3']);
  });

  it('sets aside what has no time, and deposits of nothing or less', () => {
    const {
      sales: placed,
      untimed,
      notPaid,
    } = place(
      [
        ['01 00:05', 0],
        ['02 00:05', 1],
        [null, 2],
      ],
      ['M1,2026-11-02,0,,', 'M1,2026-11-02,-1,,'],
    );
    expect([placed.length, untimed.length, notPaid.length]).toEqual([1, 1, 2]);
  });
});
