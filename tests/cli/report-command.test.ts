import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { askDuckDb, tableOf } from '../book/export/read-tables.js';
import { captureAt } from '../book/run/take-night.js';
import { makeFolder } from '../io/temporary-folder.js';
import { expectReadable, type Outcome, runProgram } from './run-program.js';

const capture = (asset: string, when: string, vends: number): Uint8Array =>
  captureAt(when, vends, { ID1: `ID1*S-${asset}*MODEL-A****${asset}`, CB1: `CB1*B-${asset}` });
const SHEET = ['--machines', 'machines.csv'];

/** A day's run as of a folder of files, its tables in `days/DAY`. */
function night(cwd: string, date: string, files: Record<string, Uint8Array>, ...argv: string[]): Promise<Outcome> {
  const folder = join(cwd, 'in', date);
  mkdirSync(folder, { recursive: true });
  for (const [name, bytes] of Object.entries(files)) writeFileSync(join(folder, name), bytes);
  const args = ['day', join('in', date), ...SHEET, '--day', date, '--out', join('days', date), ...argv];
  return runProgram(args, { cwd });
}

const table = (folder: string, name: string): Record<string, string>[] => {
  const [head, ...lines] = readFileSync(join(folder, name), 'utf8').trim().split(/\r?\n/);
  const columns = head!.split(',');
  return lines.map((line) => Object.fromEntries(line.split(',').map((value, i) => [columns[i]!, value])));
};

/** What all folders of days tell in all: vends, and the value in cents. */
function soldIn(cwd: string, name: 'sales.csv' | 'cash.csv'): { sold: number; cents: number } {
  const rows = readdirSync(join(cwd, 'days')).flatMap((day) => table(join(cwd, 'days', day), name));
  const sum = (key: string, scale: number): number =>
    rows.reduce((total, row) => total + Math.round(Number(row[key]) * scale), 0);
  return { sold: sum('sold', 1), cents: sum('value', 100) };
}

const TABLES = ['sales.csv', 'cash.csv', 'settlement.csv', 'refill.csv', 'attention.csv', 'day.json'];
const tablesOf = (folder: string): Record<string, string> =>
  Object.fromEntries(TABLES.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));

/** Two days and a late capture of a machine: 30 vends by the third, of which 12 were sold by the second. */
async function lateCapture(...argv: string[]): Promise<{ cwd: string; late: Outcome }> {
  const cwd = makeFolder({ 'machines.csv': 'machine,asset,location,currency\nM1,A1,Hall,EUR\n' });
  await night(cwd, '2026-11-01', { 'a.dex': capture('A1', '2026-11-01 20:00', 100) });
  await night(cwd, '2026-11-03', { 'b.dex': capture('A1', '2026-11-03 20:00', 130) });
  const late = await night(cwd, '2026-11-04', { 'c.dex': capture('A1', '2026-11-02 20:00', 112) }, ...argv);
  return { cwd, late };
}

describe('a capture that comes late', () => {
  it('is told in the table of its day as taking the place of what an earlier table told', async () => {
    const { cwd } = await lateCapture();
    for (const name of ['sales.csv', 'cash.csv']) {
      const [row, ...others] = table(join(cwd, 'days/2026-11-04'), name);
      expect([others.length, row!.sold, row!.replaces]).toEqual([0, '12', '2026-11-03']);
      // As it was written, without anything before it.
      expect(table(join(cwd, 'days/2026-11-03'), name)).toMatchObject([{ sold: '30', replaces: '' }]);
    }
  });

  it('has the earlier day named by the run that takes it in, and by those after it, until it is made again', async () => {
    const { cwd, late } = await lateCapture();
    expectReadable(late);
    const told = late.out.replaceAll(/\n +/g, ' ');
    expect(told).toContain('changes the tables of 1 other day. Make them again: coilbook report --since 2026-11-03');
    expect(told).toContain(`2026-11-03: ${join('days', '2026-11-03')}`);
    const json = JSON.parse(readFileSync(join(cwd, 'days/2026-11-04/day.json'), 'utf8')) as { staleDays: unknown };
    expect(json.staleDays).toEqual([{ day: '2026-11-03', folder: 'days/2026-11-03' }]);
    const next = await night(cwd, '2026-11-05', { 'd.dex': capture('A1', '2026-11-05 20:00', 140) });
    expect(next.out).toContain('report --since 2026-11-03');
    // Nothing new: it is said all the same.
    expect((await night(cwd, '2026-11-05', {})).out).toContain('report --since 2026-11-03');
    await runProgram(['report', '--since', '2026-11-01', ...SHEET], { cwd });
    expect((await night(cwd, '2026-11-06', {})).out).not.toContain('--since');
  });

  it('is said beside the JSON of the day too', async () => {
    const { late } = await lateCapture('--json');
    expect(late.err).toContain('2026-11-03: days/2026-11-03');
    expect((JSON.parse(late.out) as { staleDays: unknown }).staleDays).toEqual([
      { day: '2026-11-03', folder: 'days/2026-11-03' },
    ]);
  });

  it('changes no table of a day where it came with the day itself', async () => {
    const cwd = makeFolder({ 'machines.csv': 'machine,asset,location,currency\nM1,A1,Hall,EUR\n' });
    await night(cwd, '2026-11-01', { 'a.dex': capture('A1', '2026-11-01 20:00', 100) });
    await night(cwd, '2026-11-03', { 'b.dex': capture('A1', '2026-11-03 20:00', 130) });
    const again = await night(cwd, '2026-11-03', { 'c.dex': capture('A1', '2026-11-02 20:00', 112) });
    expect(again.out).not.toContain('--since');
    expect(table(join(cwd, 'days/2026-11-03'), 'cash.csv').map(({ sold, replaces }) => [sold, replaces])).toEqual([
      ['12', ''],
      ['18', ''],
    ]);
  });

  it('is named where the tables were taken elsewhere, once', async () => {
    const cwd = makeFolder({ 'machines.csv': 'machine,asset,location,currency\nM1,A1,Hall,EUR\n' });
    await night(cwd, '2026-11-01', { 'a.dex': capture('A1', '2026-11-01 20:00', 100) });
    await night(cwd, '2026-11-03', { 'b.dex': capture('A1', '2026-11-03 20:00', 130) });
    rmSync(join(cwd, 'days/2026-11-03'), { recursive: true });
    const late = await night(cwd, '2026-11-04', { 'c.dex': capture('A1', '2026-11-02 20:00', 112) });
    expect(late.out.replaceAll(/\n +/g, ' ')).toContain('2026-11-03: its tables are not where they were written.');
    expect((await night(cwd, '2026-11-05', {})).out).not.toContain('are not where they were');
  });
});

describe('report --since', () => {
  it('makes the changed tables again as a run of that day makes them now, and leaves the others alone', async () => {
    const { cwd } = await lateCapture();
    const untouched = tablesOf(join(cwd, 'days/2026-11-01'));
    const outcome = await runProgram(['report', '--since', '2026-11-01', ...SHEET], { cwd });
    expectReadable(outcome);
    expect(outcome.lines[0]).toBe('1 folder made again.');
    const [row] = table(join(cwd, 'days/2026-11-03'), 'sales.csv');
    // What the day told before is told otherwise: the row says so.
    expect([row!.sold, row!.replaces]).toEqual(['18', '2026-11-03']);
    expect(existsSync(join(cwd, 'days/2026-11-03/index.html'))).toBe(true);
    await runProgram(['day', '--day', '2026-11-03', ...SHEET, '--out', 'fresh'], { cwd });
    expect(tablesOf(join(cwd, 'days/2026-11-03'))).toEqual(tablesOf(join(cwd, 'fresh')));
    expect(tablesOf(join(cwd, 'days/2026-11-01'))).toEqual(untouched);
    expect(soldIn(cwd, 'sales.csv')).toEqual({ sold: 30, cents: 4500 });
    const nothing = await runProgram(['report', '--since', '2026-11-01', ...SHEET], { cwd });
    expect([nothing.status, nothing.lines[0]]).toEqual([0, 'Nothing to make again since 2026-11-01.']);
  });

  it('leaves days before it as they are, and names them; prints the days as JSON', async () => {
    const { cwd } = await lateCapture();
    const later = await runProgram(['report', '--since', '2026-11-04', ...SHEET], { cwd });
    expect(later.lines[0]).toBe('Nothing to make again since 2026-11-04.');
    expect(later.out).toContain('2026-11-03: days/2026-11-03');
    const json = await runProgram(['report', '--since', '2026-11-03', '--json', ...SHEET], { cwd });
    expect(json.lines.map((line) => (JSON.parse(line) as { day: string }).day)).toEqual(['2026-11-03']);
  });

  it.each([
    [['--since', '2026-11-01', '--day', '2026-11-01'], '--day and --since'],
    [['--since', '2026-11-01', '--out', 'x'], '--out and --since'],
    [['--since', 'May'], '--since: expected a date'],
    [['--since', '2026-11-01', '--csv'], '--csv'],
    [['--out', 'x'], '--day is missing'],
    [['--day', '2026-11-01'], '--out is missing'],
  ])('refuses %j', async (argv, words) => {
    const { status, err } = await runProgram(['report', ...argv], { cwd: makeFolder() });
    expect(status).toBe(64);
    expect(err).toContain(words);
  });
});

describe('bags counted later', () => {
  it('have the day named whose table of visits they change', async () => {
    const { cwd } = await lateCapture();
    await runProgram(['report', '--since', '2026-11-01', ...SHEET], { cwd });
    writeFileSync(join(cwd, 'counts.csv'), 'machine,visited_at,coins,bills\nM1,2026-11-03 20:00,10.00,0\n');
    const counts = ['--counts', 'counts.csv', '--day', '2026-11-03'];
    expect(
      (await runProgram(['settle', '--book', 'coilbook.db', ...counts, ...SHEET, '--record'], { cwd })).status,
    ).toBeLessThan(3);
    expect((await night(cwd, '2026-11-05', {})).out).toContain('2026-11-03: days/2026-11-03');
    await runProgram(['report', '--since', '2026-11-01', ...SHEET], { cwd });
    expect(table(join(cwd, 'days/2026-11-03'), 'settlement.csv')).toHaveLength(1);
  });
});

/** A sequence of numbers from 0 on that looks like chance and is the same each time. */
function makeChance(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
    return Math.floor((state / 0x7fffffff) * below) % below;
  };
}

describe('a week of 40 machines whose nights run out of order', () => {
  it.each([1, 2])(
    'adds up to what was sold, and to the export (%i)',
    async (seed) => {
      const chance = makeChance(seed * 7919);
      const machines = Array.from({ length: 40 }, (_, i) => `A${i + 1}`);
      const rows = machines.map((asset) => `M${asset},${asset},EUR,R${asset.length}`);
      const cwd = makeFolder({ 'machines.csv': `machine,asset,currency,route\n${rows.join('\n')}\n` });
      const nights = new Map<number, Record<string, Uint8Array>>();
      let truth = 0;
      for (const asset of machines) {
        let vends = 1000 + chance(500);
        const first = vends;
        for (let day = 1; day <= 7; day++) {
          if (day > 1) vends += chance(40);
          // Mostly the night's own, at times a later one's.
          const came = Math.min(7, day + (chance(4) === 0 ? 1 + chance(3) : 0));
          const files = nights.get(came) ?? {};
          nights.set(came, files);
          files[`${asset}-${day}.dex`] = capture(asset, `2026-11-0${day} 22:${10 + chance(40)}`, vends);
        }
        truth += vends - first;
      }
      const order = [1, 2, 3, 4, 5, 6, 7].map((day) => [chance(1000), day] as const).sort(([a], [b]) => a - b);
      for (const [, day] of order) await night(cwd, `2026-11-0${day}`, nights.get(day) ?? {}, '--no-pages');
      // As they were written they tell some sales twice, and others not at all.
      expect(soldIn(cwd, 'sales.csv').sold).not.toBe(truth);
      const outcome = await runProgram(['report', '--since', '2026-11-01', ...SHEET], { cwd });
      expectReadable(outcome);
      for (const name of ['sales.csv', 'cash.csv'] as const) {
        expect(soldIn(cwd, name)).toEqual({ sold: truth, cents: truth * 150 });
      }
      for (const day of readdirSync(join(cwd, 'days'))) {
        await runProgram(['day', '--day', day, ...SHEET, '--out', join('fresh', day), '--no-pages'], { cwd });
        expect(tablesOf(join(cwd, 'days', day))['sales.csv']).toBe(tablesOf(join(cwd, 'fresh', day))['sales.csv']);
      }
      expect(await soldInExport(cwd)).toBe(truth);
    },
    120_000,
  );
});

async function soldInExport(cwd: string): Promise<number> {
  await runProgram(['book', 'export', '--parquet', 'tables', ...SHEET], { cwd });
  const [found] = await askDuckDb(`SELECT sum(sold)::INTEGER AS sold FROM ${tableOf(join(cwd, 'tables'), 'columns')}`);
  return Number(found!.sold);
}
