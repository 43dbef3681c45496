import { describe, expect, it } from 'vitest';
import { crossTotalsCheck } from '../../src/checks/cross-totals.js';
import { changeSegments, checkCases, runCase } from '../support/check-cases.js';

const lists = (columns: readonly string[]): string[] =>
  columns.flatMap((id) => [`PA1*${id}*150`, 'PA2*10*1500*2*300', `PA7*${id}*CA*0*150*9*1350*2*300`]);

checkCases('cross totals', crossTotalsCheck, {
  clean: [{ name: 'totals that can not be judged', segments: changeSegments({ without: ['VA1', 'CA15'] }) }],
  failing: [
    {
      name: 'a total of more than its columns',
      segments: changeSegments({ put: ['PA2*9*1350*2*300'] }),
      code: 'cross-total',
      severity: 'note',
      message:
        /^The number of all paid vends since initialisation is 20, its columns come to 19 \(1 less\); whether that is old or new only a second read can tell\.$/,
      at: { segment: 'VA1', element: 'VA102', expected: '19', received: '20' },
      count: 2,
    },
    {
      name: 'a total of less than its columns',
      segments: changeSegments({ put: ['PA2*10*1600*2*300'] }),
      code: 'cross-total',
      severity: 'note',
      message: /^The value .* is 30\.00 EUR, its columns come to 31\.00 EUR \(1\.00 EUR more\)/,
    },
    {
      // A total that differs by exactly 10^k on one read has rolled over (domain rule).
      name: 'a total that rolled over',
      segments: changeSegments({
        put: ['VA1*3000*20*600*4', 'CA2*99999000*14*400*3', 'DA2*4000*6*200*1', 'PA2*10*100001500*2*300'],
      }),
      code: 'cross-total',
      severity: 'note',
      message: /: exactly 100000000 apart, so a counter ran past its last digit once, and nothing is missing\.$/,
      count: 2,
    },
    {
      name: 'price lists of one column that differ',
      segments: changeSegments({ put: ['VA1**30**6'], without: ['CA2'], add: lists(['13']) }),
      code: 'cross-total',
      severity: 'note',
      message:
        /^The number of the column's paid vends since initialisation of column 13 is 10, its payment devices and price lists come to 9/,
      at: { column: '13', segment: 'PA2', element: 'PA201' },
      count: 2,
    },
  ],
});

describe('cross totals of many columns', () => {
  it('are told together', () => {
    const segments = changeSegments({ put: ['VA1**60**12'], without: ['CA2'], add: lists(['13', '14', '15', '16']) });
    const findings = runCase(crossTotalsCheck, { name: 'many', segments });
    expect(findings.map(({ message }) => message)).toEqual([
      "The number of the column's paid vends since initialisation differs from the sum of its payment devices and price lists in 4 columns: 13, 14, 15, 16.",
      "The value of the column's paid vends since initialisation differs from the sum of its payment devices and price lists in 4 columns: 13, 14, 15, 16.",
    ]);
  });
});
