import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { classifyDate, classifyTime, parseMachineDate, parseMachineTime } from '../../src/read/machine-date.js';
import { bytesOf } from '../support/build-capture.js';

const judgeDate = (text: string): string => classifyDate(bytesOf(`x${text}x`), 1, 1 + text.length);
const judgeTime = (text: string): string => classifyTime(bytesOf(`x${text}x`), 1, 1 + text.length);

describe('machine dates', () => {
  it.each([
    // YYMMDD (manual L0190D, p. 42); 2002-08-01 and 2002-07-23 as in the Lavazza Blue LB 2000 manual, section 15.2.
    ['020801', '2002-08-01', 'good'],
    ['020723', '2002-07-23', 'good'],
    ['20261124', '2026-11-24', 'good'],
    ['991231', '1999-12-31', 'good'],
    ['791231', '2079-12-31', 'good'],
    ['240229', '2024-02-29', 'good'],
    ['260229', null, 'bad'],
    ['261301', null, 'bad'],
    ['260100', null, 'bad'],
    ['000000', null, 'unset'],
    ['00000000', null, 'unset'],
    ['0', null, 'unset'],
    ['', null, 'empty'],
    ['2611', null, 'bad'],
    ['26112x', null, 'bad'],
    ['x61124', null, 'bad'],
    ['26x124', null, 'bad'],
  ])('%s is %s (%s)', (text, date, state) => {
    expect(parseMachineDate(text)).toBe(date);
    expect(judgeDate(text)).toBe(state);
  });

  it.each([
    // 16:45 and 11:37 as in the Lavazza Blue LB 2000 manual, section 15.2.
    ['1645', '16:45:00', 'good'],
    ['1137', '11:37:00', 'good'],
    ['235959', '23:59:59', 'good'],
    ['0000', '00:00:00', 'good'],
    ['2400', null, 'bad'],
    ['1260', null, 'bad'],
    ['125960', null, 'bad'],
    ['12:0', null, 'bad'],
    ['124', null, 'bad'],
    ['', null, 'empty'],
  ])('%s is %s (%s)', (text, time, state) => {
    expect(parseMachineTime(text)).toBe(time);
    expect(judgeTime(text)).toBe(state);
  });

  it('are read and judged alike, and as the calendar of the language has them', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999_999 }), (number) => {
        const text = String(number).padStart(6, '0');
        const date = parseMachineDate(text);
        const [year, month, day] = [text.slice(0, 2), text.slice(2, 4), text.slice(4, 6)].map(Number) as [
          number,
          number,
          number,
        ];
        const full = year < 80 ? 2000 + year : 1900 + year;
        const real = new Date(Date.UTC(full, month - 1, day));
        const exists = real.getUTCFullYear() === full && real.getUTCMonth() === month - 1 && real.getUTCDate() === day;
        expect(date).toBe(exists ? real.toISOString().slice(0, 10) : null);
        expect(judgeDate(text) === 'good').toBe(exists);
      }),
      { seed: 3, numRuns: 2000 },
    );
  });
});
