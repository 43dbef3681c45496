import { formatISO9075 } from 'date-fns';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseWhen } from '../../src/sheets/parse-when.js';

const parse = (text: string, taken = new Set<string>()) => parseWhen(text, { taken });

describe('parseWhen', () => {
  // ISO 8601, calendar date and local time of day, extended form.
  it.each([
    ['2026-11-24', '2026-11-24', null],
    ['2026-11-24 10:15', '2026-11-24', '10:15:00'],
    ['2026-11-24T10:15', '2026-11-24', '10:15:00'],
    ['2026-11-24T10:15:30', '2026-11-24', '10:15:30'],
    ['2026-11-24 00:00:00', '2026-11-24', '00:00:00'],
    ['2024-02-29', '2024-02-29', null],
  ])('reads %s and has nothing to say', (text, date, time) => {
    const taken = new Set<string>();
    expect(parse(text, taken)).toEqual({ value: { date, time } });
    expect(taken.size).toBe(0);
  });

  it.each([
    ['2026/11/24', '2026-11-24', null],
    ['2026.11.24', '2026-11-24', null],
    ['20261124', '2026-11-24', null],
    ['2026/1/4 9:05', '2026-01-04', '09:05:00'],
    ['2026-11-24t10:15', '2026-11-24', '10:15:00'],
    ['2026-11-24  10:15:30.000', '2026-11-24', '10:15:30'],
  ])('reads %s, whose year comes first too, and says so', (text, date, time) => {
    const taken = new Set<string>();
    expect(parse(text, taken)).toEqual({ value: { date, time } });
    expect([...taken]).toEqual(['dates of other forms than 2026-11-24 as year, month, day']);
  });

  it.each([
    ['03/04/2026', '2026-03-04 and as 2026-04-03'],
    ['3.4.2026', '2026-03-04 and as 2026-04-03'],
    ['03-04-2026 10:15', '2026-03-04 and as 2026-04-03'],
    ['03/04/26', '2003-04-26 and as 2026-03-04 and as 2026-04-03'],
    ['26-11-24', '2024-11-26 and as 2026-11-24'],
  ])('refuses %s, which names more than one day', (text, readings) => {
    expect(parse(text)).toMatchObject({
      refusal: { code: 'ambiguous-date', says: `"${text}" can be read as ${readings}` },
    });
  });

  it.each([
    ['24/11/2026', 'is not a date written with its year first'],
    ['24.11.2026', 'is not a date written with its year first'],
    ['11/24/2026', 'is not a date written with its year first'],
    ['04/04/2026', 'is not a date written with its year first'],
    ['24/11/206', 'is not a date written with its year first'],
    ['24 November 2026', 'is not a date written with its year first'],
    ['10:15', 'is not a date written with its year first'],
    ['2026-11', 'is not a date written with its year first'],
    ['2026-11/24', 'is not a date written with its year first'],
    ['2026-11-24T', 'is not a date written with its year first'],
    ['yesterday', 'is not a date written with its year first'],
    ['46350', "looks like a spreadsheet's own number of a day"],
    ['46350.427', "looks like a spreadsheet's own number of a day"],
    ['2026-02-29', 'is no day of the calendar'],
    ['2026-11-31', 'is no day of the calendar'],
    ['2026-13-01', 'is no day of the calendar'],
    ['20261301', 'is no day of the calendar'],
    ['2026-00-10', 'is no day of the calendar'],
    ['0206-11-24', 'is not in the years from 2000 to 2099'],
    ['2126-11-24', 'is not in the years from 2000 to 2099'],
    ['2026-11-24 25:00', 'has no time of day that can be read'],
    ['2026-11-24 24:00', 'has no time of day that can be read'],
    ['2026-11-24 10:60', 'has no time of day that can be read'],
    ['2026-11-24 10:15 PM', 'has no time of day that can be read'],
    ['2026-11-24 10:15:30.5', 'has no time of day that can be read'],
    ['2026-11-24 1015', 'has no time of day that can be read'],
    ['2026-11-24T10:15Z', "has a time zone, while times here are those on the machine's clock"],
    ['2026-11-24T10:15:30+01:00', "has a time zone, while times here are those on the machine's clock"],
    ['2026-11-24 10:15 -0500', "has a time zone, while times here are those on the machine's clock"],
    ['2026-11-24 10:15 UTC', "has a time zone, while times here are those on the machine's clock"],
  ])('refuses %s', (text, says) => {
    const reading = parse(text);
    expect(reading).toMatchObject({ refusal: { code: 'bad-cell', says: `"${text}" ${says}` } });
    expect(reading).toMatchObject({ refusal: { expected: expect.stringContaining('a date such as 2026-11-24') } });
  });

  it('does not look into text that is far too long', () => {
    const start = performance.now();
    expect(parse(`3/4/2026${' '.repeat(500_000)}x`)).toMatchObject({
      refusal: { says: expect.stringContaining('is no date') },
    });
    expect(parse(`x${' T'.repeat(500_000)}`)).toMatchObject({
      refusal: { says: expect.stringContaining('is no date') },
    });
    expect(performance.now() - start).toBeLessThan(2000);
  });

  it('reads what another library writes', () => {
    const date = fc.date({ min: new Date(2000, 0, 1, 12), max: new Date(2099, 11, 31, 12), noInvalidDate: true });
    fc.assert(
      fc.property(date, (when) => {
        const text = formatISO9075(when);
        const [day, time] = text.split(' ');
        expect(parse(text)).toEqual({ value: { date: day, time } });
        expect(parse(formatISO9075(when, { representation: 'date' }))).toEqual({ value: { date: day, time: null } });
        expect(parse(formatISO9075(when, { representation: 'date', format: 'basic' }))).toEqual({
          value: { date: day, time: null },
        });
      }),
    );
  });

  it('never throws, and gives days that exist', () => {
    const text = fc.string({ unit: fc.constantFrom(...'0123456789-/.: TZ+'), minLength: 1, maxLength: 25 });
    fc.assert(
      fc.property(text, (any) => {
        const reading = parse(any);
        if ('value' in reading)
          expect(new Date(`${reading.value.date}T00:00:00Z`).toISOString()).toContain(reading.value.date);
      }),
    );
  });
});
