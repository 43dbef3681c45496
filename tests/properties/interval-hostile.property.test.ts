import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildIntervals } from '../../src/interval/index.js';
import { Roster } from '../../src/sheets/index.js';
import { machineRow } from '../support/check-cases.js';
import { takeSegments } from '../support/taken.js';

/** A counter as a broken or forged capture may have it: any number, nothing, or no number at all. */
const element = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: 0, max: 20_000 }).map(String) },
  { weight: 2, arbitrary: fc.constantFrom('', '0', '9999', '99999', '1000000', '-5', '+7', 'x', '1,5') },
  { weight: 1, arbitrary: fc.maxSafeInteger().map(String) },
);
const line = (id: string, count: number): fc.Arbitrary<string> =>
  fc.array(element, { maxLength: count }).map((elements) => [id, ...elements].join('*'));
const column = fc
  .constantFrom('11', '12', 'A*', '')
  .chain((name) =>
    fc.tuple(line(`PA1*${name}`, 1), line('PA2', 8), line('PA3', 4), line('PA4', 4), line(`PA7*${name}*DA*3`, 5)),
  );

const segments = fc
  .record({
    who: fc.constantFrom('ID1*S1*M****A1', 'ID1*S2*M****A1', 'ID1*S1*M****A2', 'ID1', 'ID1*000*M****000'),
    board: fc.constantFrom('CB1*B1', 'CB1*B2', 'CB1'),
    money: fc.constantFrom('ID4*2*978*EUR', 'ID4*0*392*JPY', 'ID4', 'ID4*9'),
    clock: fc.constantFrom('ID5*261120*1000', 'ID5*261121*1000', 'ID5*991399*2599', 'ID5'),
    totals: fc.tuple(line('VA1', 4), line('VA2', 4), line('VA3', 4), line('CA2', 4), line('CA3', 10), line('CA4', 4)),
    cash: fc.tuple(line('CA8', 2), line('CA10', 2), line('CA15', 1), line('CA17*0', 2), line('DA2', 4), line('DA4', 2)),
    columns: fc.array(column, { maxLength: 3 }),
    lists: fc.array(line('LA1*0*11', 3), { maxLength: 2 }),
    reads: fc.tuple(line('EA3', 10), fc.constantFrom('EA4*240101*0000', 'EA4*261120*1200', 'EA4')),
  })
  .map(({ who, board, money, clock, totals, cash, columns, lists, reads }) =>
    [who, money, clock, board, ...totals, ...cash, ...columns.flat(), ...lists, ...reads].filter(
      (text) => text.includes('*') || text === 'ID1',
    ),
  );

describe('interval: captures that make no sense', () => {
  it('never throws, never gives a negative sale, and never a figure that can not be kept exactly', () => {
    const roster = new Roster({ machines: [machineRow({ machine: 'M1', asset: 'A1' })] });
    const property = fc.property(
      fc.array(segments, { minLength: 2, maxLength: 5 }),
      fc.boolean(),
      (captures, isListed) => {
        const reads = captures.map((lines, i) =>
          takeSegments(lines, {
            file: `${i}.dex`,
            roster,
            ...(isListed ? { receivedAt: `2026-11-2${i}T10:00:00` } : {}),
          }),
        );
        for (const { columns, totals, cash, findings } of buildIntervals(reads, roster).intervals) {
          for (const { sold, value, test, free, split, unexplained } of columns) {
            for (const figure of [sold, value, test, free]) expect(figure === null || figure >= 0).toBe(true);
            expect(split.every(({ count }) => count > 0)).toBe(true);
            expect(unexplained === null || Number.isSafeInteger(unexplained)).toBe(true);
          }
          const { isCashBookedAsCard: _, ...amounts } = cash;
          for (const figure of [...Object.values(totals), ...Object.values(amounts)]) {
            expect(figure === null || Number.isSafeInteger(figure)).toBe(true);
          }
          for (const { message } of findings) expect(message).not.toMatch(/null|undefined|NaN|Infinity/);
        }
      },
    );
    fc.assert(property, { numRuns: 1500, seed: 501 });
  });
});
