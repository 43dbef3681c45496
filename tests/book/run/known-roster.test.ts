import { describe, expect, it } from 'vitest';
import { addRemembered, meetRoster, recallOffice, withRemembered, workOutStale } from '../../../src/book/run/index.js';
import type { BookStore } from '../../../src/book/store/index.js';
import { decimalsFromRoster, Roster, readPlan } from '../../../src/sheets/index.js';
import { gather, openBook } from '../store/temporary-book.js';
import { captureAt, dailyCaptures, figuresOf, rosterOf, soldInSteps, takeNight } from './take-night.js';

const NOTHING = rosterOf('machine\n');
const KNOWN = rosterOf('machine,asset,serial,currency\nM1,A1,S1,EUR\n');

async function bookWith(roster: Roster, days: readonly number[] = [1, 2]): Promise<BookStore> {
  const store = await openBook();
  await meetRoster(store, roster);
  await takeNight(store, dailyCaptures(days), { roster });
  await workOutStale(store, { take: { roster } });
  return store;
}

const machinesOf = async (store: BookStore): Promise<(string | null)[]> =>
  (await gather(store.reads())).map(({ machine }) => machine);

describe('meetRoster', () => {
  it('moves the reads of a machine that the office did not know, and their steps with them', async () => {
    const store = await bookWith(NOTHING);
    expect(await machinesOf(store)).toEqual(['asset A1', 'asset A1']);
    expect(await meetRoster(store, KNOWN)).toBe(2);
    await workOutStale(store, { take: { roster: KNOWN } });
    expect((await figuresOf(store)).map(({ step, figures }) => [step.machine, figures.totals.sold])).toEqual([
      ['machine M1', 10],
    ]);
  });

  it('finds them by their serial number as well, where the asset number is on no roster', async () => {
    const store = await bookWith(NOTHING);
    expect(await meetRoster(store, rosterOf('machine,serial\nM7,S1\n'))).toBe(2);
    expect(await machinesOf(store)).toEqual(['machine M7', 'machine M7']);
  });

  it('moves reads when a number goes from one machine to another, and not again the next night', async () => {
    const store = await bookWith(KNOWN);
    const moved = rosterOf('machine,asset\nM2,A1\n');
    expect(await meetRoster(store, moved)).toBe(2);
    expect(await machinesOf(store)).toEqual(['machine M2', 'machine M2']);
    // The machine that lost the number is remembered without it.
    const rows = (await recallOffice(store)).machines;
    expect(rows.map(({ machine, asset, serial }) => [machine, asset, serial])).toEqual([
      ['M1', null, 'S1'],
      ['M2', 'A1', null],
    ]);
    expect(await meetRoster(store, moved)).toBe(0);
  });

  it('looks through nothing and writes nothing when it is as before', async () => {
    const store = await bookWith(KNOWN);
    const asked: string[] = [];
    const watched = new Proxy(store, {
      get: (target, name) => {
        asked.push(String(name));
        const value = Reflect.get(target, name) as unknown;
        return typeof value === 'function' ? value.bind(target) : value;
      },
    });
    expect(await meetRoster(watched, KNOWN)).toBe(0);
    expect(await meetRoster(watched, NOTHING)).toBe(0);
    expect(new Set(asked)).toEqual(new Set(['machines']));
    expect((await gather(store.reads())).map(({ era }) => era)).toEqual([0, 0]);
  });

  it('leaves reads where they are when a roster has other machines only', async () => {
    const store = await bookWith(KNOWN);
    expect(await meetRoster(store, rosterOf('machine,asset\nM9,A9\n'))).toBe(0);
    expect(await machinesOf(store)).toEqual(['machine M1', 'machine M1']);
    expect((await recallOffice(store)).machines.map(({ machine }) => machine)).toEqual(['M1', 'M9']);
  });

  it('claims what came while a part of the roster was missing, and looks at other unknown machines in vain', async () => {
    const store = await bookWith(KNOWN);
    const torn = rosterOf('machine,asset\nM9,A9\n');
    await meetRoster(store, torn);
    const unknown = captureAt('2026-11-03 10:00', 3, { ID1: 'ID1*SX*MODEL-A****AX' });
    await takeNight(store, [...dailyCaptures([3]), { name: 'x.dex', bytes: unknown }], { roster: torn });
    await workOutStale(store, { take: { roster: addRemembered(torn, (await recallOffice(store)).machines) } });
    expect(await machinesOf(store)).toEqual(['machine M1', 'machine M1', 'asset A1', 'asset AX']);
    expect(await meetRoster(store, KNOWN)).toBe(1);
    await workOutStale(store, { take: { roster: KNOWN } });
    expect(await machinesOf(store)).toEqual(['machine M1', 'machine M1', 'machine M1', 'asset AX']);
    expect(await soldInSteps(store)).toEqual([10, 10]);
    expect(await meetRoster(store, KNOWN)).toBe(0);
  });

  it('has a machine worked out anew of which it says another currency, and no other', async () => {
    const store = await bookWith(KNOWN);
    expect(await store.staleMachines()).toEqual([]);
    const workOut = async (roster: Roster): Promise<number> => {
      await meetRoster(store, roster);
      return (await workOutStale(store, { take: { roster } })).machines;
    };
    expect(await workOut(KNOWN)).toBe(0);
    const changed = rosterOf('machine,asset,serial,currency,decimals\nM1,A1,S1,EUR,3\nM5,A5,,EUR,2\n');
    expect(await workOut(changed)).toBe(1);
    expect(await workOut(changed)).toBe(0);
    // Where a machine stands changes no figure.
    expect(
      await workOut(rosterOf('machine,asset,serial,location,currency,decimals\nM1,A1,S1,Hall,EUR,3\nM5,A5,,,EUR,2\n')),
    ).toBe(0);
  });
});

describe('the remembered roster', () => {
  it('adds machines that today has not, and keeps what today says of the others', async () => {
    const store = await bookWith(KNOWN);
    const today = rosterOf('machine,asset\nM2,A2\nM1,A7\n');
    const all = addRemembered(today, (await recallOffice(store)).machines);
    expect(all).toBe(today);
    const other = addRemembered(rosterOf('machine,asset\nM2,A2\n'), (await recallOffice(store)).machines);
    expect(other.books.machines.map(({ machine, asset }) => [machine, asset])).toEqual([
      ['M2', 'A2'],
      ['M1', 'A1'],
    ]);
  });

  it('passes over what it can not read', async () => {
    const store = await openBook();
    await store.rememberMachines([{ key: 'machine M1', facts: { row: { machine: 'M1' } } }]);
    expect((await recallOffice(store)).machines).toEqual([]);
  });

  it('takes what is remembered only where nothing was given today', async () => {
    const store = await bookWith(KNOWN);
    const plan = readPlan(
      { file: 'plan.csv', content: 'machine,column,price\nM1,11,1.50\n' },
      decimalsFromRoster(KNOWN.books.machines, 2),
    ).rows;
    await meetRoster(store, new Roster({ ...KNOWN.books, plan }));
    const remembered = await recallOffice(store);
    expect(withRemembered(NOTHING, remembered).books).toMatchObject({ machines: KNOWN.books.machines, plan });
    const other = rosterOf('machine,asset\nM2,A2\n');
    expect(withRemembered(other, remembered).books.machines).toEqual(other.books.machines);
    // A plan of another machine leaves that of the first as it was.
    await meetRoster(store, new Roster({ ...KNOWN.books, plan: plan.map((row) => ({ ...row, machine: 'M7' })) }));
    expect((await recallOffice(store)).plan.map(({ machine }) => machine)).toEqual(['M1', 'M7']);
  });
});
