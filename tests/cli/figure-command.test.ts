import { describe, expect, it } from 'vitest';
import { type FigureTrace, recompute } from '../../src/explain/index.js';
import type { FigureJson } from '../../src/report/index.js';
import { captureOf, TRUTH } from './demo-truth.js';
import { expectReadable, jsonOf, runProgram, SHEETS } from './run-program.js';

const PAIR = [captureOf('2026-11-20-0805-v101.dex'), captureOf('2026-11-23-0805-v101.dex')];
const ROUND = ['fixtures/demo/captures', '--counts', 'fixtures/demo/counts.csv', '--day', '2026-11-23', ...SHEETS];
const explain = (id: string, ...argv: string[]) => runProgram(['explain', '--figure', id, ...argv]);
const V101 = TRUTH.visits.find(({ machine }) => machine === 'V101')!;

describe('explain --figure', () => {
  it('shows the arithmetic of a column with elements, files, lines and values', async () => {
    const outcome = await explain('columns.24.sold', ...PAIR, ...SHEETS);
    expectReadable(outcome);
    const { sold } = V101.columns.find(({ column }) => column === '24')!;
    expect(outcome.lines[0]).toBe(`columns.24.sold = ${sold}`);
    expect(outcome.lines[1]).toBe('V101, Library foyer, 2026-11-20 08:05:35 to 2026-11-23 08:05:35');
    for (const word of ['PA201', '2026-11-23-0805-v101.dex, line', '2026-11-20-0805-v101.dex, line', 'Nougat']) {
      expect(outcome.out).toContain(word);
    }
    expect(outcome.status).toBe(0);
  });

  it.each(['columns.11.value', 'totals.sold', 'cash.toCashBox', 'cash.tubeDifference', 'cash.cardSales'])(
    '%s can be worked out anew from what is printed',
    async (id) => {
      const outcome = await explain(id, ...PAIR, ...SHEETS, '--json');
      const [figure] = jsonOf<FigureJson>(outcome, 'figure');
      expect(recompute(figure!.step as FigureTrace['step'])).toBe(figure!.step.value);
      const text = await explain(id, ...PAIR, ...SHEETS);
      expectReadable(text);
    },
  );

  it('shows the arithmetic of a settled round down to the bag and the counters', async () => {
    const outcome = await explain('visits.B4406.overShort.total', ...ROUND);
    expectReadable(outcome);
    expect(outcome.lines.slice(0, 2)).toEqual([
      'visits.B4406.overShort.total = -5.00 EUR',
      'Route R7, 2026-11-23, EUR',
    ]);
    for (const word of ['counts.csv, row 7, column coins', 'CA306', '121.10', '126.10']) {
      expect(outcome.out).toContain(word);
    }
    const total = await explain('totals.overShort.total', ...ROUND);
    expect(total.lines[0]).toBe('totals.overShort.total = -5.00 EUR');
    expect(total.out).toContain('figure visits.B4406.overShort.total');
  });

  it('says why a figure is not known', async () => {
    const outcome = await explain('cash.tokenSales', ...PAIR, ...SHEETS);
    expect(outcome.lines[0]).toBe('cash.tokenSales = not known');
    expect(outcome.out).toContain('Neither read has this counter; absent is not zero.');
    const open = await explain('visits.B4408.overShort.total', ...ROUND);
    expect(open.out).toContain('The visit is unread');
  });

  it('lists the figures there are for one there is not', async () => {
    const { status, err } = await explain('columns.11.gold', ...PAIR);
    expect(status).toBe(64);
    const lines = err.trim().split('\n');
    expect(lines[0]).toBe('coilbook: --figure: there is no figure "columns.11.gold"; there are:');
    for (const id of ['columns.COLUMN.sold', 'cash.tubeDifference', 'totals.value']) expect(lines).toContain(id);
    expect(lines.at(-1)).toMatch(/^COLUMN is one of 11, 12,/);
    const round = await explain('visits.B9.sold', ...ROUND);
    expect(round.err).toContain('visits.VISIT.columns.COLUMN.sold');
    expect(round.err).toMatch(/VISIT is one of B44/);
  });

  it('shows a figure for every interval that has it, or only one machine', async () => {
    const all = await explain('totals.sold', 'fixtures/demo/captures', ...SHEETS);
    expect(all.lines.filter((line) => line.startsWith('totals.sold = ')).length).toBeGreaterThan(30);
    const one = await explain('totals.sold', 'fixtures/demo/captures', ...SHEETS, '--only', 'V101');
    expect(one.lines.filter((line) => line.startsWith('totals.sold = '))).toHaveLength(5);
  });

  it('has no table', async () => {
    expect(await explain('totals.sold', ...PAIR, '--csv')).toMatchObject({
      status: 64,
      err: 'coilbook: --figure has no table; use --json\n',
    });
  });

  it('says what is in the way where there is nothing to explain', async () => {
    const outcome = await explain('totals.sold', PAIR[0]!);
    expect(outcome.out).toBe('');
    expect(outcome.status).toBe(0);
  });
});
