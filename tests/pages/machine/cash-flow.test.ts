import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildIntervals, type Interval } from '../../../src/interval/index.js';
import { type Flow, type FlowPiece, flowCash } from '../../../src/pages/machine/cash-flow.js';
import { arbitraryHistory, type HistoryChoice } from '../../support/arbitraries/history.js';
import { intervalOf } from '../../support/interval-cases.js';
import { takeHistory } from '../../support/interval-truth.js';

const FROM = ['CA2*90000', 'CA3*****9000*5000*1000*3000', 'CA4***3000*200', 'CA8**0', 'CA10**700', 'CA15*2000'];

/** Cash in 10.00: box 3.00, tubes 2.00, bills 5.00; change 1.00; sales 9.00; tubes from 20.00 to 21.00. */
const MOVED = {
  CA2: 'CA2*90900',
  CA3: 'CA3*****10000*5300*1200*3500',
  CA4: 'CA4***3100*200',
  CA8: 'CA8**0',
  CA10: 'CA10**700',
  CA15: 'CA15*2100',
};

const flowsOf = (changes: Partial<typeof MOVED> = {}, from = FROM): readonly Flow[] =>
  flowCash(
    intervalOf(
      from,
      Object.values({ ...MOVED, ...changes }).filter((segment) => segment !== ''),
    ),
  );

const sumOf = (pieces: readonly FlowPiece[]): number => pieces.reduce((sum, { amount }) => sum + (amount ?? 0), 0);
const amountsOf = (pieces: readonly FlowPiece[]) => pieces.map(({ label, amount }) => [label, amount]);
const unexplainedOf = (flow: Flow) => [
  ...flow.ins.filter(({ isUnexplained }) => isUnexplained).map(({ amount }) => ['in', amount]),
  ...flow.outs.filter(({ isUnexplained }) => isUnexplained).map(({ amount }) => ['out', amount]),
];

describe('flowCash', () => {
  it('leads from cash in to box, tubes and stacker, through the tubes, and to what it was for', () => {
    const [cashIn, tubes, customers] = flowsOf();
    expect(amountsOf(cashIn!.ins)).toEqual([['Cash in', 1000]]);
    expect(amountsOf(cashIn!.outs)).toEqual([
      ['Cash box', 300],
      ['Tubes', 200],
      ['Bill stacker', 500],
      ['Not explained', 0],
    ]);
    expect(amountsOf(tubes!.ins)).toEqual([
      ['Tubes before', 2000],
      ['Cash to tubes', 200],
      ['Filled by hand', 0],
      ['Not explained', 0],
    ]);
    expect(amountsOf(tubes!.outs)).toEqual([
      ['Change', 100],
      ['Out by hand', 0],
      ['Tubes now', 2100],
    ]);
    expect(amountsOf(customers!.outs).slice(0, 2)).toEqual([
      ['Cash sales', 900],
      ['Change', 100],
    ]);
  });

  it('has coins that are gone from the tubes as a piece that goes out, and coins too many as one that comes in', () => {
    expect(unexplainedOf(flowsOf({ CA15: 'CA15*1950' })[1]!)).toEqual([['out', 150]]);
    expect(unexplainedOf(flowsOf({ CA15: 'CA15*2175' })[1]!)).toEqual([['in', 75]]);
  });

  it('has cash that went nowhere, and cash that came from nowhere, as a piece of its own', () => {
    expect(unexplainedOf(flowsOf({ CA3: 'CA3*****10050*5300*1200*3500' })[0]!)).toEqual([['out', null]]);
    const stated = (cashIn: number) => {
      const from = FROM.map((one) => (one.startsWith('CA3') ? 'CA3*****9000*5000*1000***3000' : one));
      return flowsOf({ CA3: `CA3*****${cashIn}*5300*1200***3500` }, from)[0]!;
    };
    expect(unexplainedOf(stated(10050))).toEqual([['out', 50]]);
    expect(unexplainedOf(stated(9950))).toEqual([['in', 50]]);
    for (const cashIn of [10050, 9950]) expect(sumOf(stated(cashIn).ins)).toBe(sumOf(stated(cashIn).outs));
  });

  it('has money that bought nothing on the customers’ side, and says why there is none where cash is booked as card', () => {
    expect(unexplainedOf(flowsOf({ CA2: 'CA2*90850' })[2]!)).toEqual([['out', 50]]);
    expect(unexplainedOf(flowsOf({ CA2: 'CA2*90950' })[2]!)).toEqual([['in', 50]]);
    const asCard = flowCash(
      intervalOf([...FROM, 'DA2*100'], [...Object.values({ ...MOVED, CA2: 'CA2*90000' }), 'DA2*1000']),
    )[2]!;
    expect(asCard.outs.at(-1)).toMatchObject({ amount: null, state: 'not-known' });
    expect(asCard.outs.at(-1)!.note).toContain('cash sales as card sales');
  });

  it('tells what is not known from what no counter counts', () => {
    const [cashIn, tubes, customers] = flowsOf(
      { CA4: '', CA8: '', CA10: '' },
      FROM.filter((one) => !/^CA(8|10)/.test(one)),
    );
    const stateOf = (flow: Flow, name: string) =>
      [...flow.ins, ...flow.outs].find(({ label }) => label === name)!.state;
    expect(stateOf(tubes!, 'Filled by hand')).toBe('no-counter');
    expect(stateOf(tubes!, 'Change')).toBe('not-known');
    expect(stateOf(tubes!, 'Not explained')).toBe('not-known');
    expect(stateOf(customers!, 'Overpaid')).toBe('no-counter');
    expect(stateOf(customers!, 'To cards')).toBe('no-counter');
    expect(stateOf(cashIn!, 'Cash box')).toBe('known');
  });

  it('comes to the same on both sides where all is known, whatever happened, and is never 0 for what is not known', () => {
    const choice: HistoryChoice = {
      discounts: true,
      revalues: true,
      standingCredit: true,
      unseenResets: true,
      tubeFaults: true,
      billsSettingChanges: true,
      machine: { minPastVends: 20, cashSalesBookedAs: ['CA', 'DA'] },
    };
    let whole = 0;
    fc.assert(
      fc.property(arbitraryHistory(choice), (history) => {
        const { reads, roster } = takeHistory(history);
        for (const interval of buildIntervals(reads, roster).intervals) {
          for (const flow of flowCash(interval)) whole += expectBalanced(flow, interval) ? 1 : 0;
        }
      }),
      { numRuns: 80, seed: 41 },
    );
    expect(whole).toBeGreaterThan(100);
  });
});

/** Every piece is what the interval says, unknown where that is; both sides are the same where nothing is unknown. */
function expectBalanced({ ins, outs }: Flow, { cash }: Interval): boolean {
  const pieces = [...ins, ...outs];
  for (const { figure, amount, state, isUnexplained } of pieces) {
    expect(amount === null).toBe(state !== 'known');
    if (amount !== null) expect(amount).toBeGreaterThanOrEqual(0);
    if (figure === null) continue;
    const said = cash[figure] as number | null;
    expect(amount).toBe(said === null || !isUnexplained ? said : Math.abs(said));
  }
  const isWhole = pieces.every(({ state }) => state !== 'not-known');
  if (isWhole) expect(sumOf(ins)).toBe(sumOf(outs));
  return isWhole;
}
