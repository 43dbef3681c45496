import { appendFileSync, copyFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { takeIn } from '../../src/book/intake/index.js';
import { openSqliteBook } from '../../src/book/store/index.js';
import { verifyBook } from '../../src/book/verify-book.js';
import { loadOffice, type SettlementJson } from '../../src/index.js';
import { temporaryFolder } from '../book/store/temporary-book.js';
import { writeCapture } from '../settlement/scenario.js';
import { csvOf, expectReadable, jsonOf, type Outcome, ROOT, runProgram, type Surroundings } from './run-program.js';

const DEMO = join(ROOT, 'fixtures/demo');
const SHEETS = ['machines.csv', 'plan.csv', 'captures.csv', 'counts.csv'];
const OFFICE = ['--machines', 'machines.csv', '--plan', 'plan.csv', '--captures-list', 'captures.csv'];
const COUNTS = ['--counts', 'counts.csv'];
const DAY = ['--day', '2026-11-23'];
const CLOSE = ['--close', '--by', 'Kim Example'];
/** A capture that comes later than the others: that of machine V106. */
const LATE = '2026-11-23-1020-v106.dex';

let folder: string;

/** The demo in a folder of its own, with a book of all captures but one. */
beforeEach(async () => {
  folder = temporaryFolder();
  mkdirSync(join(folder, 'captures'));
  for (const sheet of SHEETS) copyFileSync(join(DEMO, sheet), join(folder, sheet));
  for (const file of readdirSync(join(DEMO, 'captures'))) {
    if (file !== LATE) copyFileSync(join(DEMO, 'captures', file), join(folder, 'captures', file));
  }
  await feed('captures');
});

/** Take captures into the book, as a day's run does. */
async function feed(name: string): Promise<void> {
  const workplace = { cwd: folder, stdin: [] as unknown as AsyncIterable<Uint8Array> };
  const { roster } = await loadOffice(
    { machines: 'machines.csv', plan: 'plan.csv', capturesList: 'captures.csv' },
    null,
    workplace,
  );
  const book = await openSqliteBook(join(folder, 'coilbook.db'), { create: true });
  const recordedAt = (): string => '2026-11-24T22:00:00.000Z';
  await takeIn(book, [name], { day: '2026-11-23', recordedAt, take: { roster }, workplace });
  await book.close();
}

async function feedLate(): Promise<void> {
  copyFileSync(join(DEMO, 'captures', LATE), join(folder, LATE));
  await feed(LATE);
}

const run = (argv: readonly string[], around: Surroundings = {}): Promise<Outcome> =>
  runProgram(['settle', ...argv], { cwd: folder, ...around });
const settle = (...argv: string[]): Promise<Outcome> => run(['--book', 'coilbook.db', ...OFFICE, ...DAY, ...argv]);
const jsonFrom = async (...argv: string[]): Promise<SettlementJson> =>
  jsonOf<SettlementJson>(await settle('--json', ...argv), 'settlement')[0]!;

async function sizeOfBook(): Promise<number> {
  const book = await openSqliteBook(join(folder, 'coilbook.db'), { isReadOnly: true });
  const { fault, head } = await verifyBook(book);
  expect(fault).toBeNull();
  await book.close();
  return head.size;
}

describe('settle --book', () => {
  it('says of the demo what it says of the files, to the cent', async () => {
    await feedLate();
    const [fromFiles] = jsonOf<SettlementJson>(
      await run(['--captures', 'captures', LATE, ...COUNTS, ...OFFICE, ...DAY, '--json']),
      'settlement',
    );
    const size = await sizeOfBook();
    const fromBook = await jsonFrom(...COUNTS);
    const {
      general: _,
      closing,
      asClosed,
      asItStands,
      adjustments,
      pending,
      pendingAdjustment,
      inTheWay,
      drivers,
      ...settlement
    } = fromBook;
    const { general: __, asItStands: ___, drivers: ____, ...expected } = fromFiles!;
    const plain = JSON.parse(JSON.stringify(expected).replaceAll('captures/2026', '2026')) as unknown;
    expect(JSON.parse(JSON.stringify(settlement).replaceAll('captures/2026', '2026'))).toEqual(plain);
    expect({ closing, asClosed, adjustments, pending, pendingAdjustment, inTheWay }).toEqual({
      closing: null,
      asClosed: null,
      adjustments: [],
      pending: [],
      pendingAdjustment: null,
      inTheWay: [],
    });
    expect(asItStands).toEqual(expected.totals);
    expect(drivers!.map(({ totals }) => totals)).toEqual([expected.totals]);
    expect(await sizeOfBook()).toBe(size);
  });
});

describe('settle --book --close', () => {
  it('closes, and says so in the first line from then on', async () => {
    const before = await sizeOfBook();
    const outcome = await settle(...COUNTS, ...CLOSE);
    expectReadable(outcome);
    const first = 'Route R7, 2026-11-23: no difference on 5 settled visits; 3 visits still open.';
    expect(outcome.out.replaceAll(/\n(?=entry)/g, ' ')).toContain(first);
    expect(outcome.out.slice(0, 200).replaceAll('\n', ' ')).toContain(
      `${first} Closed 1970-01-01 00:00 UTC by Kim Example, entry ${before + 8}.`,
    );
    expect(outcome.err).toBe('coilbook: recorded 8 counts, 1 settlement closed\n');
    // Visits that are open have to be looked at all the same.
    expect(outcome.status).toBe(2);
    expect(await sizeOfBook()).toBe(before + 9);
    const again = await settle();
    expect(again).toEqual({ ...outcome, err: '' });
    expect((await settle(...COUNTS, ...CLOSE)).err).toBe('coilbook: nothing new to record\n');
    expect(await sizeOfBook()).toBe(before + 9);
  });

  it('leaves a round open of which no bag is known, and of which nothing is settled, unless told to with a reason', async () => {
    const all = await settle(...CLOSE);
    const words = '1 round without any bag stays open: close it with --route once its counts are in';
    expect(all.err).toBe(`coilbook: nothing new to record; ${words}\n`);
    expect(all.out).toContain('Route R7, 2026-11-23: nothing could be settled; ');
    expect(all.out).not.toContain('Closed');
    const named = await settle(...CLOSE, '--route', 'R7');
    expect([named.err, named.status]).toEqual(['coilbook: nothing new to record\n', 2]);
    expect(named.out).toContain('It cannot be closed: No visit of it is settled.');
    const anyway = await settle(...CLOSE, '--route', 'R7', '--close-anyway', 'no driver went');
    expect(anyway.err).toBe('coilbook: recorded 1 settlement closed\n');
    expect((await jsonFrom()).closing!.reason).toBe('no driver went');
  });

  it('shows a late capture as a change, and records it as an adjustment when told to', async () => {
    await settle(...COUNTS, ...CLOSE);
    await feedLate();
    const shown = await settle();
    expectReadable(shown);
    expect(shown.out.replaceAll(/\s+/g, ' ')).toContain(
      'as it stands: 5.00 EUR short on 6 settled visits; 2 visits still open.',
    );
    expect(shown.out).toContain('As closed: no difference on 5 settled visits; 3 visits still open.');
    expect(shown.out).toContain('Not recorded yet: -5.00.');
    expect(shown.out).toMatch(/ V106 +B4406 +state +unread +short\n/);
    expect(shown.out).toContain(`because of capture ${LATE} (entry `);
    const size = await sizeOfBook();
    const closed = await settle(...CLOSE);
    expectReadable(closed);
    expect(closed.err).toBe('coilbook: recorded 1 adjustment\n');
    expect(closed.out).toMatch(
      /as it stands: 5\.00 EUR short[\s\S]*As closed: no difference[\s\S]*Adjustments: -5\.00 \(entry \d+\)/,
    );
    expect(closed.out).toContain('second person');
    expect(closed.out).toContain('not carried yet');
    expect(await sizeOfBook()).toBe(size + 1);
    const json = await jsonFrom();
    expect(json).toMatchObject({
      pending: [],
      adjustments: [{ entry: size, by: 'Kim Example', overShort: -500 }],
    });
    expect(csvOf(await settle('--csv')).find(({ machine }) => machine === 'V106')).toMatchObject({ state: 'short' });
    const sales = csvOf(await settle('--table', 'sales'));
    expect(new Set(sales.map(({ machine }) => machine))).toContain('V106');
  });

  it('refuses a silent change of a count, and takes one with a reason', async () => {
    await settle(...COUNTS, ...CLOSE);
    const size = await sizeOfBook();
    writeFileSync(join(folder, 'recount.csv'), 'machine,visited_at,bag,coins\nV105,2026-11-23,B4405,104.30\n');
    const RECOUNT = ['--counts', 'recount.csv'];
    const refused = await settle(...RECOUNT, ...CLOSE);
    expect(refused.err).toBe('coilbook: nothing new to record\n');
    expect(refused.out.replaceAll(/\s+/g, ' ')).toContain('Bag B4405 is in the book with coins 104.80 EUR');
    expect(await sizeOfBook()).toBe(size);
    const corrected = await settle(...RECOUNT, '--correct', 'counted again with Ana', ...CLOSE);
    expect(corrected.err).toBe('coilbook: recorded 1 correction, 1 adjustment\n');
    expect(corrected.out.replaceAll(/\s+/g, ' ')).toContain('correction of bag B4405 of machine V105');
    expect(await sizeOfBook()).toBe(size + 2);
  });

  it('shows hostile names and reasons as text', async () => {
    const evil = '\u001b[2J=HYPERLINK("x")<script>\u202e';
    await settle(...COUNTS, '--close', '--by', evil);
    const sheet = `machine,visited_at,bag,coins\nV105,2026-11-23,B4405,104.30\n`;
    writeFileSync(join(folder, 'recount.csv'), sheet);
    const outcome = await settle('--counts', 'recount.csv', '--correct', evil, '--close', '--by', evil);
    expectReadable(outcome);
    expect(outcome.out).not.toMatch(/\u202e|\u001b/);
    expect((await jsonFrom()).closing!.by).toBe(evil);
    expectReadable(await settle());
  });

  it('records nothing from a sheet that cannot be used', async () => {
    const size = await sizeOfBook();
    writeFileSync(join(folder, 'bad.csv'), 'bag,coins\nB1,5.00\n');
    for (const sheet of ['bad.csv', 'gone.csv']) {
      const { err, status } = await settle('--counts', sheet, ...CLOSE);
      expect(err).toContain('nothing was recorded, since the count sheet could not be used');
      expect(status).toBe(sheet === 'gone.csv' ? 66 : 2);
    }
    expect(await sizeOfBook()).toBe(size);
  });

  it('does not claim a bag uncounted later whose row could not be used', async () => {
    const counts = readFileSync(join(folder, 'counts.csv'), 'utf8').replace('104.80', '10x4.80');
    writeFileSync(join(folder, 'counts.csv'), counts);
    const refused = await settle(...COUNTS, ...CLOSE);
    // The rows that are good are recorded all the same.
    expect([refused.err, refused.status]).toEqual(['coilbook: recorded 7 counts, 1 row that could not be used\n', 2]);
    expect((await jsonFrom()).closing).toBeNull();
    await settle(...COUNTS, ...CLOSE, '--close-anyway', 'the row is torn');
    const json = await jsonFrom();
    expect(json.visits.find(({ machine }) => machine === 'V105')!.state).toBe('unsettled');
    expect(json.pending).toEqual([]);
    // Mended, the row is a bag that turned up.
    copyFileSync(join(DEMO, 'counts.csv'), join(folder, 'counts.csv'));
    expect((await settle(...COUNTS, ...CLOSE)).err).toBe('coilbook: recorded 1 count, 1 adjustment\n');
  });
});

describe('the exit status of a closed day', () => {
  it('follows how things stand now: what was open, and is settled by an adjustment, is done', async () => {
    const files = { 'a.dex': { at: '2026-11-23T10:00' }, 'b.dex': { at: '2026-11-24T10:00', box: 500 } };
    for (const [name, shown] of Object.entries(files)) writeFileSync(join(folder, name), writeCapture(shown));
    appendFileSync(join(folder, 'captures.csv'), 'a.dex,2026-11-23 10:00,service,\n');
    writeFileSync(join(folder, 'm.csv'), 'machine,asset,route,currency,has_bills\nM1,A1,R1,EUR,no\n');
    writeFileSync(join(folder, 'c.csv'), 'machine,visited_at,bag,coins,bills\nM1,2026-11-24 10:00,B1,5.00,0\n');
    const close = ['--book', 'coilbook.db', '--machines', 'm.csv', '--day', '2026-11-24', ...CLOSE];
    await feed('a.dex');
    const anyway = ['--close-anyway', 'the capture is on its way'];
    expect((await run([...close, '--counts', 'c.csv', ...anyway])).status).toBe(2);
    await feed('b.dex');
    const look = close.slice(0, 6);
    // Somebody has to take note of the change first.
    expect((await run(look)).out.replaceAll(/\s+/g, ' ')).toContain('Not recorded yet');
    expect((await run([...look, '--strict'])).status).toBe(2);
    expect((await run(close)).err).toBe('coilbook: recorded 1 adjustment\n');
    expect((await run(look)).status).toBe(1);
  });
});

describe('a day of which the book has nothing', () => {
  it('has nothing to settle', async () => {
    const { out, status } = await settle('--day', '2026-01-01', ...CLOSE);
    expect([out.split('\n')[0], status]).toEqual(['Nothing to settle: no count fits the route and day asked for.', 0]);
  });
});
