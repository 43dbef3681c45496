import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SettlementJson } from '../../src/index.js';
import { jsonOf, runProgram } from '../cli/run-program.js';
import { makeFolder } from '../io/temporary-folder.js';
import { playRound, type RoundBag, type RoundRead } from '../settlement/play-round.js';
import type { RoundChoice } from '../support/arbitraries/round.js';
import { joinCaptures } from '../support/build-capture.js';
import { EUR } from '../support/simulator/index.js';
import {
  asPagesSay,
  bagsOfJson,
  bagsOfPages,
  bagsOfRows,
  csvIn,
  rowsIn,
  salesOfExport,
  salesOfFolder,
  salesOfRows,
  sumSales,
} from './one-account/figures.js';
import { Office, type OfficeBag, officeBag } from './one-account/office.js';
import { arbitraryTale, type OfficeStep, type Tale } from './one-account/tale.js';

const PLAIN = { minReads: 3, maxReads: 5, minMachines: 1, maxMachines: 2, maxSteps: 8 };
const MACHINE = { money: [EUR], minPastVends: 20, maxColumns: 4 };

/** Everything that can come between two collections. */
const EVERYTHING: RoundChoice = {
  ...PLAIN,
  discounts: true,
  revalues: true,
  unseenResets: true,
  tubeFaults: true,
  billsSettingChanges: true,
  clockChanges: true,
  restarts: ['board-changed', 'memory-cleared', 'other-machine'],
  machine: { ...MACHINE, interval: ['kept', 'absent'], cashSalesBookedAs: ['CA', 'DA', 'DB'] },
};

/** How many histories are played; a run of its own plays as many as COILBOOK_ONE_ACCOUNT says, from any seed. */
const RUNS = Number(process.env.COILBOOK_ONE_ACCOUNT ?? 2);
const SEED = Number(process.env.COILBOOK_ONE_ACCOUNT_SEED ?? 1108);

const dayOf = (time: string): string => time.slice(0, 10);
const nightOf = (n: number): string => new Date(Date.UTC(2026, 10, 2 + n)).toISOString().slice(0, 10);
const pick = <T>(list: readonly T[], place: number): T | undefined => list[place % Math.max(list.length, 1)];

describe('random histories of captures, counts, closings, corrections and changes of sheets', () => {
  it.each([
    ['plain', { ...PLAIN, machine: MACHINE }],
    ['with everything that can come between', EVERYTHING],
  ])(
    'give one account, whoever is asked, and the account that a new book gives: %s',
    async (_, choice) => {
      const property = fc.asyncProperty(arbitraryTale(choice), async (tale) => {
        const told = await live(tale);
        if (told !== null) await agree(told);
      });
      await fc.assert(property, { numRuns: RUNS, seed: SEED, endOnFailure: true });
    },
    RUNS * 60_000,
  );
});

/** An office after all nights, with everything known. */
interface Told {
  readonly office: Office;
  readonly captures: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  readonly nights: number;
}

/** Live through the nights of a tale. */
async function live(tale: Tale): Promise<Told | null> {
  const { reads, bags } = playRound(tale.machines);
  if (bags.length === 0) return null;
  const office = new Office(makeFolder(), reads);
  const due = captureDue(tale, reads);
  const nights = Math.max(...due.map(({ night }) => night)) + 2;
  for (let night = 0; night < nights; night++) {
    office.hasList = night >= Math.min(tale.listFrom, nights - 1);
    for (const [i, machine] of tale.machines.entries()) {
      const isOn = i < tale.machines.length - 1 || night >= Math.min(tale.lastMachineFrom, nights - 1);
      if (isOn && !office.roster.some((row) => row.machine === machine))
        office.roster.push({ machine, location: 'Hall' });
    }
    const files = due.filter((each) => each.night === night);
    for (const { name, bytes } of files) office.write(`in/${night}/${name}`, bytes);
    // The first night makes the book, whatever comes.
    if (night === 0) office.write('in/0/nothing.txt', 'nothing');
    const taken = files.length === 0 && night > 0 ? [] : [`in/${night}`];
    await office.run('day', ...taken, '--day', nightOf(night), '--out', `out/${night}`, '--no-pages');
    for (const step of pick(tale.nights, night) ?? []) await steer(office, step, { bags, night });
  }
  // What was never counted is counted now.
  for (const bag of bags) {
    const isDone = office.bags.has(bag.bag) || withdrawn.get(office)?.has(bag.bag);
    if (!isDone) await office.record(dayOf(bag.at), officeBag(bag));
  }
  return { office, captures: due, nights };
}

/** Which file comes on which night. */
function captureDue({ fates }: Tale, reads: readonly RoundRead[]) {
  return reads.flatMap(({ file, bytes, at }, i) => {
    const { late, copy } = fates[i % fates.length]!;
    const own = Math.round((Date.parse(`${dayOf(at)}Z`) - Date.parse('2026-11-02Z')) / 86_400_000);
    const again = { name: `again-${file}`, bytes: joinCaptures(bytes, new Uint8Array(3)), night: own + (copy ?? 0) };
    return [{ name: file, bytes, night: own + late }, ...(copy === null ? [] : [again])];
  });
}

const withdrawn = new WeakMap<Office, Set<string>>();

/** Do what a step says, where it can be done. */
async function steer(
  office: Office,
  { step, i, j }: OfficeStep,
  { bags, night }: { readonly bags: readonly RoundBag[]; readonly night: number },
): Promise<void> {
  const today = nightOf(night);
  const past = bags.filter(({ at }) => dayOf(at) <= today);
  const fresh = past.filter(({ bag }) => !office.bags.has(bag) && !withdrawn.get(office)?.has(bag));
  const held = [...office.bags.values()].filter(({ machine }) => isOnRoster(office, machine));
  const bag = pick(
    fresh.filter(({ machine }) => isOnRoster(office, machine)),
    i,
  );
  const one = pick(held, i);
  const two = pick(held, j);
  const enter = async (said: OfficeBag): Promise<void> => office.record(dayOf(said.at), said);
  switch (step) {
    case 'count':
      if (bag !== undefined) await enter(officeBag(bag));
      break;
    case 'miscount':
      if (bag !== undefined) await enter({ ...officeBag(bag), coins: Math.max(0, bag.coins) + 35 });
      break;
    case 'count-by-day': {
      const own = fresh.filter(({ at, machine }) => dayOf(at) === today && isOnRoster(office, machine)).map(officeBag);
      if (own.length === 0) break;
      await office.run('day', '--day', today, '--counts', office.sheet(own), '--out', `out/${night}`, '--no-pages');
      for (const said of own) office.bags.set(said.bag, said);
      break;
    }
    case 'amount':
      if (one !== undefined) await office.correct({ ...one, coins: one.coins + 5 * (1 + (j % 4)) });
      break;
    case 'driver':
      if (one !== undefined) await office.correct({ ...one, driver: `D${j % 3}` });
      break;
    case 'move':
      if (one !== undefined) await office.correct({ ...one, at: pick(bags, j)!.at });
      break;
    case 'swap':
      if (one !== undefined && two !== undefined && one !== two)
        await office.correct({ ...one, machine: two.machine }, { ...two, machine: one.machine });
      break;
    case 'withdraw':
      if (one === undefined) break;
      await office.withdraw(one.bag);
      withdrawn.set(office, (withdrawn.get(office) ?? new Set()).add(one.bag));
      break;
    case 'close':
      if (past.length > 0) await office.close(dayOf(pick(past, i)!.at));
      break;
    case 'ask':
      await office.run('settle', '--book', 'coilbook.db', '--day', nightOf(i % (night + 1)), '--json');
      break;
    case 'place': {
      const row = pick(office.roster, i);
      if (row !== undefined) row.location = `Hall ${j}`;
      break;
    }
    case 'plan':
      office.price = 100 + 5 * j;
      break;
    case 'profile':
      office.profile = office.profile === 'plain' ? 'easy' : 'plain';
      break;
  }
}

const isOnRoster = ({ roster }: Office, machine: string): boolean =>
  roster.some((row) => row.machine.machine === machine);

/** Everything that can be asked says one thing, and a new book says it too. */
async function agree({ office, captures, nights }: Told): Promise<void> {
  const days = Array.from({ length: nights + 1 }, (_, night) => nightOf(night));
  // A last run with the sheets as they are now: what rests on them is worked out anew.
  await office.run('day', office.write('in/none/none.txt', 'nothing'), '--day', days.at(-1)!, '--no-pages');
  const whole = office.anew(makeFolder());
  for (const { name, bytes } of captures) whole.write(`all/${name}`, bytes);
  await whole.run('day', 'all', '--day', days[0]!, '--out', 'out', '--no-pages');
  const counts = [...office.bags.values()];
  if (counts.length > 0) await whole.record(days[0]!, ...counts);

  const sales: string[] = [];
  const lastCounted = counts
    .map(({ at }) => dayOf(at))
    .sort()
    .at(-1);
  for (const day of days) {
    const folder = `final/${day}`;
    await office.run('day', '--day', day, '--out', folder, '--no-pages');
    sales.push(...salesOfFolder(`${office.folder}/${folder}`));
    const ofDay = counts.filter(({ at }) => dayOf(at) === day);
    if (ofDay.length === 0) continue;
    const bags = bagsOfRows(csvIn(`${office.folder}/${folder}/settlement.csv`));
    const asked = ['settle', '--book', 'coilbook.db', '--day', day, '--json'];
    const fromBook = bagsOfJson(jsonOf<SettlementJson>(await office.run(...asked), 'settlement'));
    expect({ day, bags: fromBook }).toEqual({ day, bags });
    // Pages are dear: those of one day stand for all.
    if (day === lastCounted) {
      await office.run('report', '--day', day, '--out', 'pages');
      const pages = bagsOfPages(`${office.folder}/pages`);
      const told = new Set(bags.map(asPagesSay));
      expect(pages.filter((line) => !told.has(line))).toEqual([]);
      // A round of which nothing was counted or closed needs no sheet yet.
      const counted = [...told].filter((line) => line.split(' ')[1] !== 'no');
      expect(pages).toEqual(expect.arrayContaining(counted));
    }
    const anew = bagsOfJson(jsonOf<SettlementJson>(await whole.run(...asked), 'settlement'));
    expect({ day, bags }).toEqual({ day, bags: anew });
    const files = await whole.run(
      'settle',
      '--captures',
      'all',
      '--counts',
      whole.sheet(counts),
      '--day',
      day,
      '--json',
    );
    const alone = bagsOfJson(jsonOf<SettlementJson>(files, 'settlement'));
    expect({ day, bags: alone }).toEqual({ day, bags });
  }
  const verified = await runProgram(['book', 'verify', '--deep'], { cwd: office.folder });
  expect([verified.status, verified.out]).toEqual([0, expect.anything()]);
  for (const each of [office, whole]) await each.run('book', 'export', '--parquet', 'tables');
  const exported = await salesOfExport(`${office.folder}/tables`);
  expect(sales.sort()).toEqual(exported);
  expect(salesOfFolder(`${whole.folder}/out`)).toEqual(exported);
  expect(await salesOfExport(`${whole.folder}/tables`)).toEqual(exported);
  const intervals = await whole.run('interval', 'all', '--table', 'sales');
  const alone = rowsIn(intervals).map((row) => ({
    ...row,
    machine: row.machine!,
    from: row.from_clock!,
    to: row.to_clock!,
  }));
  expect(sumSales(salesOfRows(alone))).toEqual(sumSales(exported));
}
