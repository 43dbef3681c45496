import { copyFileSync, mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import type { DayJson, SettlementJson } from '../../src/index.js';
import { withDatabase } from '../book/store/temporary-book.js';
import { makeFolder } from '../io/temporary-folder.js';
import { asPagesSay, bagsOfJson, bagsOfPages, bagsOfRows, csvIn } from '../properties/one-account/figures.js';
import { writeCapture } from '../settlement/scenario.js';
import { jsonOf, type Outcome, ROOT, runProgram } from './run-program.js';

const DEMO = join(ROOT, 'fixtures/demo');
const CAPTURES = readdirSync(join(DEMO, 'captures'));
const DAY = '2026-11-23';
/** The service read of a machine whose capture comes after its round is closed. */
const LATE = '2026-11-23-1020-v106.dex';

let cwd: string;

/** The demo in a folder of its own, the captures of its two rounds apart; no captures list is given unless a test gives it. */
beforeEach(() => {
  cwd = makeFolder();
  for (const sheet of ['machines.csv', 'plan.csv', 'captures.csv', 'counts.csv'])
    copyFileSync(join(DEMO, sheet), join(cwd, sheet));
  for (const name of CAPTURES) put(name < '2026-11-21' ? 'd1' : 'd2', name);
  // What was collected on the first round: nobody knows what should have been in it.
  const bags = CAPTURES.filter((name) => /^2026-11-20-(?!22)/.test(name)).map((name, i) => {
    const [, hour, minute, machine] = /^2026-11-20-(\d\d)(\d\d)-(v\d+)/.exec(name)!;
    return `${machine!.toUpperCase()},2026-11-20 ${hour}:${minute},A${i},50.00,40.00,R7,Robin Sample`;
  });
  write('counts-1.csv', ['machine,visited_at,bag,coins,bills,route,driver', ...bags].join('\n'));
});

const write = (name: string, text: string | Uint8Array): void => writeFileSync(join(cwd, name), text);
function put(folder: string, name: string): void {
  const target = join(cwd, folder);
  if (!readdirSync(cwd).includes(folder)) makeInside(folder);
  copyFileSync(join(DEMO, 'captures', name), join(target, name));
}
const makeInside = (folder: string) => mkdirSync(join(cwd, folder), { recursive: true });

const OFFICE = ['--machines', 'machines.csv', '--plan', 'plan.csv'];
const LIST = ['--captures-list', 'captures.csv'];
const day = (date: string, ...argv: string[]): Promise<Outcome> =>
  runProgram(['day', ...argv, ...OFFICE, '--day', date], { cwd });
const settle = (date: string, ...argv: string[]): Promise<Outcome> =>
  runProgram(['settle', '--book', 'coilbook.db', ...OFFICE, '--day', date, ...argv], { cwd });
const settled = async (...argv: string[]): Promise<SettlementJson> =>
  jsonOf<SettlementJson>(await settle(DAY, '--json', ...argv), 'settlement')[0]!;
const bagOf = ({ visits }: SettlementJson, machine: string) => visits.find((visit) => visit.machine === machine)!;
const flat = ({ out }: Outcome): string => out.replaceAll(/\s+/g, ' ');
const CLOSE = ['--close', '--by', 'Kim'];

describe('a captures list that comes after the captures', () => {
  const amounts = ({ visits }: SettlementJson) =>
    visits.map(({ machine, bag, state, overShort }) => [machine, bag, state, overShort.total]);

  it('is kept: rounds come out as if it had been there, also in runs that are not given it again', async () => {
    await day('2026-11-20', 'd1', ...LIST);
    await day(DAY, 'd2', ...LIST, '--counts', 'counts.csv');
    const truth = amounts(await settled());
    renameSync(join(cwd, 'coilbook.db'), join(cwd, 'truth.db'));

    await day('2026-11-20', 'd1');
    await day(DAY, 'd2', '--counts', 'counts.csv');
    expect(amounts(await settled())).not.toEqual(truth);
    await settle(DAY, '--close-anyway', 'the list is not there yet', '--by', 'Kim');
    const told = await day('2026-11-24', 'd2', ...LIST);
    expect(told.out + told.err).toMatch(/adjust/i);
    const round = await settled();
    expect(amounts(round)).toEqual(truth);
    expect(round.adjustments?.length).toBeGreaterThan(0);
    const entries = await runProgram(['book', 'entries', '--kind', 'told', '--book', 'coilbook.db'], { cwd });
    expect(flat(entries)).toMatch(/roster machines\.csv, captures list captures\.csv, on d1\S+ and \d+ other captures/);
    expect((await runProgram(['book', 'verify', '--deep', '--book', 'coilbook.db'], { cwd })).out).toMatch(
      /^The book is whole/,
    );
  });
});

describe('a book of which the office’s sheets are not given again', () => {
  const bare = (...argv: string[]): Promise<Outcome> =>
    runProgram([...argv, '--book', 'coilbook.db', '--day', DAY], { cwd });

  it('settles, counts and closes by what it remembers of them', async () => {
    await day('2026-11-20', 'd1', ...LIST);
    await day(DAY, 'd2', ...LIST);
    const given = jsonOf<SettlementJson>(await settle(DAY, '--counts', 'counts.csv', '--json', ...LIST), 'settlement');
    const remembered = await bare('settle', '--counts', 'counts.csv', '--json');
    expect(jsonOf<SettlementJson>(remembered, 'settlement')).toEqual(given);
    expect(bagOf(given[0]!, 'V106')).toMatchObject({ bag: 'B4406', state: 'short', overShort: { total: -500 } });
    await bare('settle', '--counts', 'counts.csv', ...CLOSE);
    expect((await settled()).closing).toMatchObject({ by: 'Kim' });
    const again = await bare('day', '--json');
    expect(JSON.parse(again.out).totals).toEqual(JSON.parse((await day(DAY, '--json')).out).totals);
  });

  it('reads a new plan in the money it remembers', async () => {
    await day(DAY, 'd2', ...LIST);
    write('plan-2.csv', 'machine,column,product,price\nV107,23,Wafer,1.40\n');
    const { err, out } = await bare('day', '--plan', 'plan-2.csv');
    expect(err + out).not.toContain('bad-row');
  });
});

describe('a round without a captures list, its bags counted in two days', () => {
  it('is one round in tables, day.json, list, pages, book and files', async () => {
    await day('2026-11-20', 'd1', '--counts', 'counts-1.csv');
    await settle('2026-11-20', '--close-anyway', 'the first round', '--by', 'Kim');
    await day(DAY, 'd2', '--counts', 'counts.csv', '--out', 'o2');
    const table = bagsOfRows(csvIn(join(cwd, 'o2/settlement.csv')));
    // As it was played, fixtures/demo/truth.json.
    expect(table.filter((line) => /^V10[16] /.test(line))).toEqual([
      expect.stringMatching(/^V101 B4401 2026-11-23T08:05 Robin_Sample agreed no 7920 10500 7920 10500 0 0 0 /),
      expect.stringMatching(/^V106 B4406 2026-11-23T10:20 Robin_Sample short no 12610 11500 12110 11500 -500 0 -500 /),
    ]);
    expect(bagsOfJson([await settled()])).toEqual(table);
    const ofDay = JSON.parse(readFileSync(join(cwd, 'o2/day.json'), 'utf8')) as DayJson;
    const short = ofDay.attention.filter(({ cause }) => cause === 'bag-differs').map(({ machine }) => machine);
    expect(short).toEqual(['V106']);
    const pages = table.map((line) => asPagesSay(line));
    expect(bagsOfPages(join(cwd, 'o2'))).toEqual(pages.sort());
    write('both.csv', readFileSync(join(cwd, 'counts-1.csv'), 'utf8').concat('\n', rowsOf('counts.csv').join('\n')));
    const files = await runProgram(
      ['settle', '--captures', 'd1', 'd2', '--counts', 'both.csv', ...OFFICE, '--day', DAY, '--json'],
      { cwd },
    );
    expect(bagsOfJson(jsonOf<SettlementJson>(files, 'settlement'))).toEqual(table);
  });

  it('is not counted from reads that merely stand before it, and cannot be closed so', async () => {
    await day(DAY, 'd1', 'd2', '--counts', 'counts.csv');
    const round = await settled();
    expect(round.totals.overShort.total).toBeNull();
    expect(new Set(round.visits.map(({ state }) => state))).not.toContain('over');
    const refused = await settle(DAY, ...CLOSE);
    expect(flat(refused)).toContain('nothing could be settled');
    expect((await settled()).closing).toBeNull();
  });

  /** The rows of the sheet of the second round, in the columns of that of the first. */
  const rowsOf = (name: string): string[] =>
    readFileSync(join(cwd, name), 'utf8')
      .split('\n')
      .slice(1)
      .map((row) => row.split(',').slice(0, 7).join(','));
});

describe('what is known of a closed round later', () => {
  beforeEach(async () => {
    await day('2026-11-20', 'd1', ...LIST);
  });

  it('is on the list, in day.json and in the book, where a late capture shows a shortage', async () => {
    makeInside('late');
    renameSync(join(cwd, 'd2', LATE), join(cwd, 'late', LATE));
    await day(DAY, 'd2', ...LIST, '--counts', 'counts.csv');
    await settle(DAY, ...LIST, '--close-anyway', 'the month ends', '--by', 'Kim');
    const morning = await day('2026-11-24', 'late', ...LIST, '--json');
    const [told] = jsonOf<DayJson>(morning, 'day');
    expect(told!.adjustments).toMatchObject([
      { route: 'R7', day: DAY, overShort: -500, machines: ['V106'], because: [expect.stringContaining(LATE)] },
    ]);
    const items = told!.attention.filter(({ cause }) => cause === 'round-adjusted');
    expect(items).toMatchObject([{ machine: 'V106', route: 'R7', stake: { amount: 500, bound: 'exact' } }]);
    expect(items[0]!.what).toContain('over/short changed by -5.00 EUR (V106), because of capture');
    expect(morning.status).toBe(1);
    // Made again from the book the list is the same, and so has the list of the round's own day it.
    expect((await day('2026-11-24', ...LIST, '--json')).out).toBe(morning.out);
    const own = jsonOf<DayJson>(await day(DAY, ...LIST, '--json'), 'day')[0]!;
    expect(own.adjustments).toEqual(told!.adjustments);
    expect(own.attention.map(({ cause, machine }) => `${cause} ${machine}`)).toContain('bag-differs V106');
    const round = await settled(...LIST);
    expect(round.adjustments!.map(({ overShort }) => overShort)).toEqual([-500]);
    expect(round.pending).toEqual([]);
    expect(bagOf(round, 'V106')).toMatchObject({ state: 'short', overShort: { total: -500 } });
  });

  it('takes the sum from the first driver and gives it to the one who drove, in a closed round', async () => {
    await day(DAY, 'd2', ...LIST, '--counts', 'counts.csv');
    await settle(DAY, ...LIST, '--close-anyway', 'the month ends', '--by', 'Kim');
    const row = 'V106,2026-11-23 10:20,B4406,121.10,115.00,R7,Noor Sample';
    write('right.csv', `machine,visited_at,bag,coins,bills,route,driver\n${row}\n`);
    const done = await settle(DAY, ...LIST, '--counts', 'right.csv', '--correct', 'Noor drove', '--by', 'Kim');
    expect(done.err).toContain('1 correction, 1 adjustment');
    const round = await settled(...LIST);
    const sums = round.drivers!.map(({ driver, asClosed, asItStands }) => [
      ...[driver, asClosed?.overShort.total ?? null, asItStands?.overShort.total ?? null],
    ]);
    expect(sums).toEqual([
      ['Robin Sample', -500, 0],
      ['Noor Sample', null, -500],
    ]);
    const [adjustment] = round.adjustments!;
    expect(adjustment!.byDriver.map(({ driver, overShort }) => [driver, overShort]).sort()).toEqual([
      ['Noor Sample', -500],
      ['Robin Sample', 500],
    ]);
  });

  it('goes by a captures list that comes after the closing, as by a late capture', async () => {
    // Without the list the bag that has a date alone fits no read of that day.
    await day(DAY, 'd2', '--counts', 'counts.csv');
    await settle(DAY, '--close-anyway', 'the month ends', '--by', 'Kim');
    const before = bagOf(await settled(), 'V103');
    await day('2026-11-24', 'd2', ...LIST);
    // The list is not given any more: the book remembers what it said.
    const after = bagOf(await settled(), 'V103');
    expect([before.state, after.state, after.overShort.total]).toEqual(['unsettled', 'agreed', 0]);
  });
});

describe('counts of a day', () => {
  it('are in the book before anything is closed, and can be corrected and taken out there', async () => {
    await day(DAY, 'd1', 'd2', ...LIST, '--counts', 'counts.csv');
    const entries = await runProgram(['book', 'entries', '--kind', 'count-entered', '--json'], { cwd });
    expect(entries.lines).toHaveLength(8);
    const entry = entries.lines
      .map((line) => JSON.parse(line) as { entry: number; body: { bag: string } })
      .find(({ body }) => body.bag === 'B4406')!;
    // Booked for another day and machine: one row is put in its place.
    write(
      'swap.csv',
      'machine,visited_at,bag,coins,bills,route,driver\nV106,2026-11-22 10:20,B9,126.10,115.00,R7,Noor\n',
    );
    const reason = ['--reason', 'the wrong date', '--by', 'Kim'];
    const done = await settle(DAY, ...LIST, '--counts', 'swap.csv', '--corrects', String(entry.entry), ...reason);
    expect(done.err).toContain('1 correction');
    const bags = (await settled(...LIST)).visits.filter(({ machine }) => machine === 'V106');
    expect(bags.map(({ bag, state }) => [bag, state])).toEqual([[null, 'uncounted']]);
    // A row that is nothing recorded corrects nothing.
    write('none.csv', 'machine,visited_at,bag,coins,bills\nV101,2026-11-23 08:05,B0,1.00,0.00\n');
    const refused = await settle(DAY, ...LIST, '--counts', 'none.csv', '--correct', 'a typo', '--by', 'Kim');
    expect(flat(refused)).toContain('Nothing was corrected, since');
  });

  it('of which a row was not usable keep the round from being closed, and say which and how', async () => {
    const sheet = readFileSync(join(cwd, 'counts.csv'), 'utf8').replace('121.10', '12x.10');
    write('bad.csv', sheet);
    await day(DAY, 'd1', 'd2', ...LIST);
    const refused = await settle(DAY, ...LIST, '--counts', 'bad.csv', ...CLOSE);
    expect(refused.status).toBe(2);
    expect(flat(refused)).toMatch(/^Route R7, 2026-11-23 was not closed. Row 7 of bad\.csv /);
    expect((await settled(...LIST)).closing).toBeNull();
  });
});

describe('a clock in January at a service read of November', () => {
  it('is a visit of November in the book as from files, and its missing bag is told', async () => {
    write('m.csv', 'machine,asset,route,currency\nM1,A1,R1,EUR\n');
    write('list.csv', 'file,received_at,reason\na.dex,2026-11-22 10:00,service\nb.dex,2026-11-23 10:00,service\n');
    write('none.csv', 'machine,visited_at,coins,bills\n');
    makeInside('in');
    write('in/a.dex', writeCapture({ at: '2026-11-22T10:00' }));
    write('in/b.dex', writeCapture({ at: '2026-01-05T10:00', box: 7920, bills: 10500 }));
    const sheets = ['--machines', 'm.csv', '--captures-list', 'list.csv'];
    await runProgram(['day', 'in', ...sheets, '--day', DAY, '--out', 'o'], { cwd });
    const asked = [...sheets, '--day', DAY, '--json'];
    const fromBook = await runProgram(['settle', '--book', 'coilbook.db', ...asked], { cwd });
    const fromFiles = await runProgram(['settle', '--captures', 'in', '--counts', 'none.csv', ...asked], { cwd });
    const bags = [fromBook, fromFiles].map((outcome) => bagsOfJson(jsonOf<SettlementJson>(outcome, 'settlement')));
    expect(bags[0]).toEqual(bags[1]);
    expect(bags[0]).toEqual([expect.stringMatching(/^M1 \? 2026-11-23T10:00 \? uncounted no 7920 10500 /)]);
    expect(csvIn(join(cwd, 'o/cash.csv')).map(({ from, to }) => [from, to])).toEqual([
      ['2026-11-22 10:00:00', '2026-11-23 10:00:00'],
    ]);
  });
});

describe('a book in which what was worked out was changed by hand', () => {
  it('is found by a deep verification, and no changed figure is printed', async () => {
    await day(DAY, 'd1', 'd2', ...LIST, '--counts', 'counts.csv', '--out', 'o', '--no-pages');
    const asked = async () => {
      await day(DAY, ...LIST, '--out', 'again', '--no-pages');
      const tables = ['sales', 'cash', 'settlement'].map((name) =>
        readFileSync(join(cwd, `again/${name}.csv`), 'utf8'),
      );
      return [...tables, JSON.stringify(bagsOfJson([await settled(...LIST)]))];
    };
    const before = await asked();
    const verify = () => runProgram(['book', 'verify', '--deep'], { cwd });
    expect((await verify()).status).toBe(0);
    await withDatabase(join(cwd, 'coilbook.db'), (database) => {
      database.exec('UPDATE step SET figures = zeroblob(length(figures)) WHERE entry % 3 = 0');
      database.exec("UPDATE read SET reason = 'scheduled', received_at = '2026-11-01T00:00:00' WHERE entry % 5 = 0");
    });
    expect((await verify()).status).not.toBe(0);
    expect(await asked()).toEqual(before);
  });
});
