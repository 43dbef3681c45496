import { describe, expect, it } from 'vitest';
import { type FigureTrace, listFigureIds, recompute, traceFigure } from '../../../src/explain/index.js';
import type { Interval } from '../../../src/interval/index.js';
import { renderPart } from '../../../src/pages/index.js';
import { Trace, type TraceContext } from '../../../src/pages/machine/traces.js';
import { decimalsFromRoster, Roster, readMachines, readPlan } from '../../../src/sheets/index.js';
import { intervalOf } from '../../support/interval-cases.js';
import { textOf } from '../support/look-at-page.js';

const columnsOf = (count: number, sold: number): string[] =>
  Array.from({ length: count }, (_, place) => [`PA1*${place + 10}*150`, `PA2*${sold}*${sold * 150}`]).flat();

const wordsOf = (interval: Interval, id: string, given: Partial<TraceContext> = {}): string => {
  const context: TraceContext = { ends: interval, unit: interval, linkOf: () => undefined, ...given };
  return textOf(renderPart(<Trace trace={traceFigure(interval, id)!} context={context} />));
};

describe('a trace', () => {
  const interval = intervalOf(
    ['CA3*****9000*5000*1000*3000', 'CA4***3000*200', 'CA15*2000', ...columnsOf(2, 10)],
    ['CA3*****10000*5300*1200*5', 'CA4***3100*200', 'CA15*2100', ...columnsOf(2, 12)],
  );

  it('says values, elements, and lines of which read they stand on', () => {
    expect(wordsOf(interval, 'columns.10.sold', { subject: 'Column 10' })).toMatch(
      /^paid vends: 2 = 12 \(PA201, later read, line \d+\) − 10 \(PA201, earlier read, line \d+\)$/,
    );
    expect(wordsOf(interval, 'cash.toCashBox')).toMatch(
      /^Cash to the cash box: 3\.00 = 53\.00 \(CA306, later read, line \d+\) − 50\.00 \(CA306, earlier read, line \d+\)$/,
    );
  });

  it('names the line on which the value truly stands', () => {
    const line = Number(/later read, line (\d+)/.exec(wordsOf(interval, 'columns.11.value'))![1]);
    const { block } = interval.to.read;
    const found = Array.from({ length: 40 }, (_, at) => at).find(
      (at) => block.id(at) === 'PA2' && block.lineNumber(at) === line,
    );
    expect(block.number(found!, 2)).toBe(1800);
  });

  it('leads to the figures that it rests on, where they are on the page', () => {
    const context: TraceContext = { ends: interval, unit: interval, linkOf: (figure) => `#${figure}` };
    const html = renderPart(<Trace trace={traceFigure(interval, 'totals.sold')!} context={context} />);
    expect(html).toContain('href="#columns.10.sold"');
    expect(wordsOf(interval, 'totals.sold')).toBe('Paid vends of all columns: 4 = 2 (column 10) + 2 (column 11)');
  });

  it('adds nothing up that is not known, and says why it is not', () => {
    const text = wordsOf(intervalOf(['CA15*2000'], ['CA15*2100']), 'cash.tubeDifference');
    expect(text).toContain('Tube difference: what the tubes hold less what they should: not known');
    expect(text).not.toContain('−');
    expect(text).toContain('the findings say which');
    const gone = intervalOf(columnsOf(1, 10), ['PA1*10*150']);
    expect(wordsOf(gone, 'columns.10.sold')).toMatch(/: not known; there is 10 \(PA201, earlier read, line \d+\)/);
  });

  it('counts parts of a long sum that are 0, and cuts a very long one', () => {
    const idle = intervalOf(columnsOf(20, 10), [...columnsOf(1, 12), ...columnsOf(20, 10).slice(2)]);
    expect(wordsOf(idle, 'totals.sold')).toBe('Paid vends of all columns: 2 = 2 (column 10) … and 19 more that are 0');
    const still = intervalOf(columnsOf(20, 10), columnsOf(20, 10));
    expect(wordsOf(still, 'totals.sold')).toBe('Paid vends of all columns: 0 = 20 parts that are all 0');
    const long = intervalOf(columnsOf(100, 10), columnsOf(100, 11));
    expect(wordsOf(long, 'totals.sold')).toMatch(/ … and 20 more, not shown here$/);
  });

  it('says what comes from the plan, and gives parts of their own lines of their own', () => {
    const machines = readMachines({ file: 'machines.csv', content: 'machine,asset,currency\nM1,A1,EUR\n' }).rows;
    const plan = readPlan(
      { file: 'plan.csv', content: 'machine,column,price\nM1,10,1.60\n' },
      decimalsFromRoster(machines, null),
    ).rows;
    const roster = new Roster({ machines, plan });
    const off = intervalOf(columnsOf(1, 10), columnsOf(1, 12), { roster });
    expect(wordsOf(off, 'columns.10.pricePlan')).toMatch(/: 1\.60 \(plan\)$/);
    expect(wordsOf(off, 'columns.10.loss')).toMatch(/: 0\.20 .*3\.20 = 2 \(vends\) × 1\.60 \(price by the plan\)/);
  });

  it('shows every figure of an interval with the value that its parts come to', () => {
    for (const id of listFigureIds(interval)) {
      const trace: FigureTrace = traceFigure(interval, id)!;
      const value = recompute(trace.step);
      const digits = value === null ? 'not known' : trace.step.unit === 'money' ? (value / 100).toFixed(2) : `${value}`;
      expect(wordsOf(interval, id)).toContain(`: ${digits.replace('-', '−')}`);
    }
  });

  it('makes hostile labels harmless', () => {
    const hostile = intervalOf(['PA1*<b>\u001b[31m*150', 'PA2*1*150'], ['PA1*<b>\u001b[31m*150', 'PA2*2*300']);
    const [id] = listFigureIds(hostile).filter((figure) => figure.startsWith('columns.'));
    const context: TraceContext = { ends: hostile, unit: hostile, linkOf: () => undefined };
    const html = renderPart(<Trace trace={traceFigure(hostile, id!)!} context={context} />);
    expect(html).toContain('&lt;b>\\x1B[31m');
    expect(html).not.toContain('\u001b');
  });
});
