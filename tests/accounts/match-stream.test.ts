import { describe, expect, it } from 'vitest';
import { sortIntoStreams } from '../../src/accounts/card-streams.js';
import { dayNumber } from '../../src/accounts/days.js';
import { matchStream } from '../../src/accounts/match-stream.js';
import { Roster, readDeposits } from '../../src/sheets/index.js';
import { EURO } from '../support/sheet-reading.js';
import { type Counters, intervalsOf } from './machine-days.js';

const FRAME = {
  days: { first: dayNumber('2026-11-01'), last: dayNumber('2026-11-30') },
  windowDays: 3,
  cycleDays: 1,
  moveMinutes: 0,
};

function match(counters: readonly Counters[], ...rows: string[]) {
  const content = ['machine,date,gross,period_from,period_to', ...rows].join('\n');
  const { rows: deposits } = readDeposits({ file: 'd.csv', content }, EURO);
  const { streams } = sortIntoStreams(intervalsOf(counters), deposits, new Roster(), 3);
  return matchStream(streams[0]!, FRAME).map(({ sales, deposits: paid, state, reason }) =>
    [`${sales.length}|${paid.map(({ date }) => date.slice(8)).join('+')}`, state, reason ?? '-'].join(' '),
  );
}
const reads = (...when: (string | null)[]): Counters[] =>
  when.map((at, i) => ({ at: at === null ? null : `2026-11-${at}`, cash: i * 1000, card: 1000 + i * 100 }));

describe('matchStream', () => {
  it('gives everything in order of time, what has none last', () => {
    const counters = reads('02 00:05', '03 00:05', '04 00:05', null, null);
    expect(match(counters, 'A1,2026-11-05,-1,,', 'A1,2026-11-03,1,2026-11-02,2026-11-02', 'A1,2026-11-02,0,,')).toEqual(
      [
        '0|02 matched -',
        '1|03 matched -',
        '1| missing -',
        '1| unclear no-time',
        '0|05 extra taken-back',
        '1| unclear no-time',
      ],
    );
  });

  it('counts every read between the days it joins', () => {
    expect(
      match(reads('02 00:05', '02 09:00', '02 15:00', '03 00:05'), 'A1,2026-11-03,3,2026-11-02,2026-11-02'),
    ).toEqual(['3|03 matched -']);
    expect(
      match(reads('02 00:05', '02 09:00', '02 15:00', '03 00:05'), 'A1,2026-11-03,2,2026-11-02,2026-11-02'),
    ).toEqual(['3|03 differing -']);
  });

  it('says where several readings are equally good', () => {
    expect(match(reads('02 00:05', '03 00:05', '04 00:05'), 'A1,2026-11-04,1,,')).toEqual([
      '2|04 unclear equally-good',
    ]);
  });
});
