import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { settleBook } from '../../../src/book/closing/index.js';
import { type DayPart, type DayPartsOptions, makeDayParts, workOutStale } from '../../../src/book/run/index.js';
import type { BookStore } from '../../../src/book/store/index.js';
import { type Day, type DayInputs, joinDays, makeDay } from '../../../src/day/index.js';
import { gatherHistories, listReads, type PlacedRead } from '../../../src/interval/index.js';
import type { LocalDate } from '../../../src/model/index.js';
import { dayToJson } from '../../../src/report/index.js';
import { decimalsFromRoster, type Roster, readCounts } from '../../../src/sheets/index.js';
import { demoInputs } from '../../day/demo-day.js';
import { readsOf } from '../../day/with-steps.js';
import { joinCaptures } from '../../support/build-capture.js';
import { gather, makeCapture, openBook, sha256Of } from '../store/temporary-book.js';
import { captureAt, dailyCaptures, type NightFile, rosterOf, takeNight } from './take-night.js';

const DEMO = new URL('../../../fixtures/demo/', import.meta.url);
const DAYS: readonly LocalDate[] = ['2026-11-19', '2026-11-20', '2026-11-21', '2026-11-22', '2026-11-23'];

/** The demo's roster as it was known on the evening of a day, with the whole captures list. */
const demoRoster = (): Roster => demoInputs('2026-11-23').roster;

async function takeDemo(store: BookStore, day: LocalDate): Promise<void> {
  const roster = demoRoster();
  const listed = roster.books.capturesList.filter(({ receivedAt }) => receivedAt!.startsWith(day));
  const files = listed.map(({ file }) => ({ name: file, bytes: readFileSync(new URL(`captures/${file}`, DEMO)) }));
  await takeNight(store, files, { roster }, day);
  await workOutStale(store, { take: { roster } });
}

/** A day's options, its rounds settled from the book with the bags that were counted until then. */
async function demoOptions(store: BookStore, day: LocalDate): Promise<DayPartsOptions> {
  const roster = demoRoster();
  const money = decimalsFromRoster(roster.books.machines, null);
  const sheet = readCounts({ file: 'counts.csv', content: readFileSync(new URL('counts.csv', DEMO)) }, money);
  const rows = sheet.rows.filter(({ visitedAt }) => visitedAt.date <= day);
  const { rounds } = await settleBook(store, { day, roster, sheet: { rows, findings: [], money }, settle: {} });
  const settlements = rounds.map(({ settlement }) => settlement);
  return { day, take: { roster }, settlements: { settlements, findings: [] } };
}

/** All reads of machines that a part is made from. */
const placedIn = ({ inputs }: DayPart): PlacedRead[] => [...inputs.histories.machines.values()].flatMap(listReads);

const partsOf = (store: BookStore, options: DayPartsOptions): Promise<DayPart[]> =>
  gather(makeDayParts(store, options));

async function dayOf(store: BookStore, options: DayPartsOptions): Promise<Day> {
  return joinDays((await partsOf(store, options)).map(({ day }) => day));
}

/** Copies whose bytes are in the book already are not taken in: what is left when they had not come. */
function withoutCopies(inputs: DayInputs): DayInputs {
  const isNoCopy = ({ file }: { readonly file: string }): boolean => !file.endsWith('-again.dex');
  const { settlements } = inputs.settlements;
  return {
    ...inputs,
    checks: inputs.checks.filter(isNoCopy),
    histories: gatherHistories(readsOf(inputs).filter(isNoCopy), inputs.roster),
    settlements: { settlements, findings: [] },
  };
}

/** A day as it is written, its rows in an order that no batch changes. */
function written(day: Day) {
  const { totals, ...json } = dayToJson(day);
  const ordered = <T>(rows: readonly T[]): string[] => rows.map((row) => JSON.stringify(row)).sort();
  return { ...json, totals, sales: ordered(day.sales), cash: ordered(day.cash), refill: ordered(day.refill) };
}

const pastIn = ({ inputs: { past } }: DayPart) =>
  [...past!.keys()].map((key) => past!.get(key)).filter((stretches) => stretches !== undefined);

describe('a day made from the book', () => {
  it('is the day as it is made from the files themselves, night by night and when it is made again', async () => {
    const store = await openBook();
    const first = new Map<LocalDate, ReturnType<typeof written>>();
    for (const day of DAYS) {
      await takeDemo(store, day);
      const made = await dayOf(store, await demoOptions(store, day));
      first.set(day, written(made));
      expect(written(made)).toEqual(written(makeDay(withoutCopies(demoInputs(day)))));
    }
    for (const day of DAYS) expect(written(await dayOf(store, await demoOptions(store, day)))).toEqual(first.get(day));
  }, 60_000);

  it('is the same in parts of any size', async () => {
    const store = await openBook();
    for (const day of DAYS) await takeDemo(store, day);
    const options = await demoOptions(store, '2026-11-22');
    const whole = await dayOf(store, options);
    const parts = await partsOf(store, { ...options, machinesAtOnce: 3 });
    expect(parts.map(({ inputs }) => inputs.expected!.length)).toEqual([3, 3, 2]);
    expect(written(joinDays(parts.map(({ day }) => day)))).toEqual(written(whole));
  }, 60_000);
});

const MACHINES = 'machine,asset,currency,route\nM1,A1,EUR,R1\nM2,A2,EUR,R2\nM3,A3,EUR,R2\n';
const of = (asset: string, when: string, vends: number): Uint8Array =>
  captureAt(when, vends, { ID1: `ID1*S-${asset}*MODEL-A****${asset}`, CB1: `CB1*B-${asset}` });

async function bookOf(nights: Readonly<Record<LocalDate, readonly NightFile[]>>, roster: Roster): Promise<BookStore> {
  const store = await openBook();
  for (const [day, files] of Object.entries(nights)) {
    await takeNight(store, files, { roster }, day);
    await workOutStale(store, { take: { roster } });
  }
  return store;
}

describe('parts of a day', () => {
  const roster = rosterOf(MACHINES);

  it('counts a file with reads of several parts once, with all its reads, and gives each machine its own', async () => {
    const joined = joinCaptures(
      of('A1', '2026-11-02 10:00', 20),
      of('A2', '2026-11-02 10:05', 7),
      of('A9', '2026-11-02 10:06', 1),
    );
    const store = await bookOf(
      {
        '2026-11-01': ['A1', 'A2'].map((asset) => ({ name: `${asset}.dex`, bytes: of(asset, '2026-11-01 10:00', 5) })),
        '2026-11-02': [{ name: 'joined.dex', bytes: joined }],
      },
      roster,
    );
    const parts = await partsOf(store, { day: '2026-11-02', take: { roster }, machinesAtOnce: 1 });
    const day = joinDays(parts.map((part) => part.day));
    expect(day.files).toMatchObject({ files: 1, reads: 3, duplicates: 0 });
    expect(day.machines).toEqual({ expected: 3, read: 2, unknown: 1 });
    expect(day.sales.map(({ machine, sold }) => [machine, sold]).sort()).toEqual([
      ['M1', 15],
      ['M2', 2],
    ]);
    const found = day.attention.filter(({ cause }) => cause === 'not-read' || cause === 'unknown-machine');
    expect(found.map(({ machine, cause }) => [machine, cause]).sort()).toEqual([
      ['M3', 'not-read'],
      ['asset A9', 'unknown-machine'],
    ]);
  });

  it('has one part at least, with what no machine has: junk, nameless reads, what was found in sheets', async () => {
    const nobody = captureAt('2026-11-01 10:00', 5, { ID1: 'ID1*0*MODEL-A', CB1: '' });
    const empty = rosterOf('machine\n');
    const store = await bookOf(
      {
        '2026-11-01': [
          { name: 'junk.txt', bytes: Buffer.from('no capture') },
          { name: 'nobody.dex', bytes: nobody },
        ],
      },
      empty,
    );
    const finding = { code: 'sheet-unreadable', severity: 'fault', message: 'It can not be read.' } as const;
    const parts = await partsOf(store, { day: '2026-11-01', take: { roster: empty }, findings: [finding] });
    expect(parts).toHaveLength(1);
    const [{ day }] = parts as [DayPart];
    expect(day.files).toMatchObject({ files: 2, setAside: 1, reads: 1 });
    expect(day.attention.map(({ cause }) => cause).sort()).toEqual(['office-sheet', 'set-aside', 'unknown-machine']);
    // A day of which there is nothing is made as well.
    expect(await dayOf(store, { day: '2026-10-01', take: { roster: empty } })).toMatchObject({ files: { files: 0 } });
  });

  it('counts back to the last visit, and looks at no more than it must', async () => {
    const list = 'file,received_at,reason\n3.dex,2026-11-03 10:00,service\n';
    const known = rosterOf('machine,asset,currency\nM1,A1,EUR\n', list);
    const store = await bookOf(
      { '2026-11-08': dailyCaptures([1, 2, 3, 4, 5, 6, 7, 8]), '2026-11-09': dailyCaptures([9]) },
      known,
    );
    const [part] = await partsOf(store, { day: '2026-11-09', take: { roster: known }, withContents: true });
    expect(placedIn(part!).map(({ file }) => file)).toEqual([
      '3.dex',
      '4.dex',
      '5.dex',
      '6.dex',
      '7.dex',
      '8.dex',
      '9.dex',
    ]);
    // From the visit on the third to the ninth, ten a day.
    expect(part!.day.refill).toMatchObject([
      { column: '11', sold: 60, basis: 'service-read', since: '2026-11-03T10:00:00' },
    ]);
    expect(pastIn(part!).map((stretches) => stretches.length)).toEqual([2]);
    // A day on which nothing came of it still says what it needs.
    const [later] = await partsOf(store, { day: '2026-11-10', take: { roster: known } });
    expect(later!.day.refill).toMatchObject([{ sold: 60, flags: ['no-par', 'old'] }]);
    expect(later!.day.attention).toMatchObject([{ machine: 'M1', cause: 'not-read' }]);
  });

  it('takes a bounded number of reads where no visit is known, and what came before as an outline', async () => {
    const days = Array.from({ length: 30 }, (_, i) => i + 1);
    const known = rosterOf('machine,asset,currency\nM1,A1,EUR\n');
    const store = await bookOf(
      { '2026-11-29': dailyCaptures(days.slice(0, 29)), '2026-11-30': dailyCaptures([30]) },
      known,
    );
    const [part] = await partsOf(store, { day: '2026-11-30', take: { roster: known }, withContents: true });
    expect(placedIn(part!)).toHaveLength(25);
    expect(pastIn(part!).flat()).toHaveLength(5);
    // Without pages nobody asks what a machine did that sold today.
    const [same] = await partsOf(store, { day: '2026-11-30', take: { roster: known } });
    expect(pastIn(same!)).toEqual([]);
    expect(same!.day).toEqual(part!.day);
    expect(part!.day.refill[0]).toMatchObject({ toFill: null, flags: expect.arrayContaining(['no-fill-known']) });
  });

  it.each([30, 210])('counts from the last usable read, however many came since that are not: %i', async (damaged) => {
    const known = rosterOf('machine,asset,currency\nM1,A1,EUR\n');
    const cut = Array.from({ length: damaged }, (_, i): NightFile => {
      const when = `2026-11-02 ${String(10 + Math.floor(i / 60)).padStart(2, '0')}:${String(i % 60).padStart(2, '0')}`;
      const whole = captureAt(when, 1011 + i);
      return { name: `cut-${i}.dex`, bytes: whole.slice(0, Math.floor(whole.length * 0.8)) };
    });
    const nights = { '2026-11-01': dailyCaptures([1]), '2026-11-02': cut, '2026-11-03': dailyCaptures([3]) };
    const store = await bookOf(nights, known);
    const { cash } = await dayOf(store, { day: '2026-11-03', take: { roster: known } });
    expect(cash.map(({ from, sold }) => [from, sold])).toEqual([['2026-11-01T10:00:00', 20]]);
  });

  it('is made again with what came later: each step is of the day on which the capture at its end came', async () => {
    const known = rosterOf('machine,asset,currency\nM1,A1,EUR\n');
    const options = (day: LocalDate): DayPartsOptions => ({ day, take: { roster: known } });
    const store = await bookOf({ '2026-11-01': dailyCaptures([1]), '2026-11-03': dailyCaptures([3]) }, known);
    const stepsOfDay = async (day: LocalDate) =>
      (await dayOf(store, options(day))).cash.map(({ from, to, sold }) => [from, to, sold]);
    expect(await stepsOfDay('2026-11-03')).toEqual([['2026-11-01T10:00:00', '2026-11-03T10:00:00', 20]]);
    await takeNight(store, dailyCaptures([2]), { roster: known }, '2026-11-04');
    await workOutStale(store, { take: { roster: known } });
    // Made again, the days share what was sold in all: nothing is in two of them, nothing in none.
    expect(await stepsOfDay('2026-11-01')).toEqual([]);
    expect(await stepsOfDay('2026-11-03')).toEqual([['2026-11-02T10:00:00', '2026-11-03T10:00:00', 10]]);
    expect(await stepsOfDay('2026-11-04')).toEqual([['2026-11-01T10:00:00', '2026-11-02T10:00:00', 10]]);
  });

  it('does not take a file of an earlier day for the one of that name which came today', async () => {
    const list = 'file,received_at,reason\nM1.dex,2026-11-02 10:02,service\n';
    const known = rosterOf(MACHINES, list);
    const night = (day: number): NightFile[] => [
      { name: 'M1.dex', bytes: of('A1', `2026-11-0${day} 10:00`, day * 10) },
      { name: 'M2.dex', bytes: of('A2', `2026-11-0${day} 10:00`, day * 10) },
    ];
    const store = await openBook();
    await takeNight(store, night(1), { roster: rosterOf(MACHINES) }, '2026-11-01');
    await takeNight(store, night(2), { roster: known }, '2026-11-02');
    await workOutStale(store, { take: { roster: known } });
    const [part] = await partsOf(store, { day: '2026-11-02', take: { roster: known } });
    const named = placedIn(part!).map(({ file, receivedAt }) => [file, receivedAt]);
    // By name: a machine's reads are in the order they were taken.
    expect(named.toSorted(([a], [b]) => (a! < b! ? -1 : 1))).toEqual([
      ['M1.dex', '2026-11-02T10:02:00'],
      ['M1.dex (entry 0)', null],
      ['M2.dex', null],
      ['M2.dex (entry 1)', null],
    ]);
    expect(part!.inputs.checks.map(({ file }) => file)).toEqual(['M1.dex', 'M2.dex']);
  });

  it('counts a file once that was set aside and taken in later on the day', async () => {
    const [{ bytes, name }] = dailyCaptures([1]) as [NightFile];
    const day = '2026-11-01';
    const store = await openBook();
    const same = { bytes, name, day, sha256: sha256Of(bytes), size: bytes.length, reads: [] };
    await store.recordCaptures([makeCapture('x', { ...same, kind: 'set-aside' })]);
    await takeNight(store, [{ name, bytes }], { roster }, day);
    await workOutStale(store, { take: { roster } });
    expect((await store.head()).size).toBe(2);
    const made = await dayOf(store, { day, take: { roster } });
    expect(made.files).toMatchObject({ files: 1, setAside: 0, reads: 1 });
  });
});
