import fc from 'fast-check';
import { takeReads } from '../../src/captures/index.js';
import type { CaptureListRow, CountRow } from '../../src/model/index.js';
import { readCaptures } from '../../src/read/index.js';
import { settleRound, type Visit } from '../../src/settlement/index.js';
import { Roster } from '../../src/sheets/index.js';
import { defineMachine, SimulatedMachine } from '../support/simulator/index.js';
import { faultsOnly } from './play-round.js';
import { M1, makeCount } from './scenario.js';

/** How a capture came: whole, cut short, cut short and taken again at once, or not at all. */
type Arrival = 'whole' | 'cut' | 'again' | 'lost';

interface VisitPlan {
  readonly minute: number;
  readonly capture: Arrival;
  /** How the bag is on the sheet: by its name (which the captures list has), its time or its date, or not at all. */
  readonly bag: 'named' | 'timed' | 'dated' | 'missing';
  readonly miscount: number;
}

/** One day of a machine: what was sold before the visit and after it, the visit if there was one, and the nightly read. */
export interface DayPlan {
  readonly soldBefore: number;
  readonly soldAfter: number;
  readonly visit: VisitPlan | null;
  /** A second visit on the same day, hours later. */
  readonly second: VisitPlan | null;
  readonly night: Arrival;
  readonly nightMinute: number;
  /** Where a cut falls, in hundredths of the file. */
  readonly cutAt: number;
}

/** What the office has besides captures and counts. */
export type Listing = 'none' | 'times' | 'reasons';

export interface DaysCase {
  readonly days: readonly DayPlan[];
  readonly hasNights: boolean;
  readonly listing: Listing;
}

const arrival = (weights: readonly [whole: number, cut: number, again: number, lost: number]): fc.Arbitrary<Arrival> =>
  fc.oneof(
    ...(['whole', 'cut', 'again', 'lost'] as const).map((kind, i) => ({
      weight: weights[i]!,
      arbitrary: fc.constant(kind),
    })),
  );

const visitWith = (bags: readonly VisitPlan['bag'][], min: number, max: number): fc.Arbitrary<VisitPlan> =>
  fc.record({
    minute: fc.integer({ min, max }),
    capture: arrival([6, 1, 1, 1]),
    bag: fc.constantFrom(...bags),
    miscount: fc.constantFrom(0, 0, 5, -5, 100, -350),
  } as const);

const LISTED = ['named', 'timed', 'timed', 'dated', 'dated'] as const;

const dayWith = (isTwice: boolean): fc.Arbitrary<DayPlan> =>
  fc.record({
    soldBefore: fc.integer({ min: 1, max: 6 }),
    soldAfter: fc.integer({ min: 1, max: 6 }),
    visit: fc.option(visitWith(isTwice ? LISTED : [...LISTED, 'missing'], 8 * 60, 12 * 60)),
    second: isTwice ? fc.option(visitWith(LISTED, 15 * 60, 18 * 60)) : fc.constant(null),
    night: arrival([5, 1, 2, 0]),
    nightMinute: fc.integer({ min: 23 * 60 + 20, max: 23 * 60 + 40 }),
    // A cut leaves what names the machine: without that there is nothing to know a capture by.
    cutAt: fc.integer({ min: 30, max: 95 }),
  });

/** Machines visited once a day at most, or twice; then every bag is on the sheet. */
export const arbitraryDays = (isTwice = false): fc.Arbitrary<DaysCase> =>
  fc.record({
    days: fc.array(dayWith(isTwice), { minLength: 3, maxLength: 12 }),
    hasNights: fc.boolean(),
    listing: fc.constantFrom('none', 'times', 'reasons'),
  });

/** A capture that came, by its file. `order` counts what happened to the machine. */
interface Came {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly at: string;
  readonly reason: 'service' | 'scheduled';
  readonly bag: string | null;
  /** Up to where it shows what came in: a capture of a visit stands for the moment of its bag. */
  readonly order: number;
}

/** A bag that was truly taken, and what lay in it. */
export interface TrueBag {
  readonly order: number;
  readonly content: number;
  readonly row: CountRow | null;
  readonly hasUsableCapture: boolean;
}

/** What truly happened, and what the office made of it. */
export interface DaysOutcome {
  readonly visits: readonly Visit[];
  readonly bags: readonly TrueBag[];
  /** The place of a capture among all that happened, by its file. */
  readonly orderOf: ReadonlyMap<string, number>;
}

const clockText = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;

/** Plays the days on one machine, and settles all of its bags. */
export function settleDays({ days, hasNights, listing }: DaysCase): DaysOutcome {
  const machine = new SimulatedMachine(
    defineMachine({
      startsAt: '2026-11-01T06:00:00',
      identity: { asset: 'A1' },
      past: { changePercent: 0 },
    }),
  );
  const came: Came[] = [];
  const bags: TrueBag[] = [];
  let order = 0;
  const take = (how: Arrival, at: string, reason: Came['reason'], bag: string | null, cutAt: number): void => {
    const file = `${at.replaceAll(/\W/g, '')}.dex`;
    const service = reason === 'service';
    const { bytes } = machine.read({ at: `${at}:00`, service });
    const own = { at: `${at}:00`, reason, bag, order };
    const cut = bytes.slice(0, Math.floor((bytes.length * cutAt) / 100));
    if (how === 'cut' || how === 'again') came.push({ ...own, file: `cut-${file}`, bytes: cut });
    if (how === 'whole') came.push({ ...own, file, bytes });
    if (how === 'again') {
      machine.advance(1);
      came.push({ ...own, file: `again-${file}`, bytes: machine.read({ service }).bytes });
    }
  };
  const sell = (times: number): void => {
    for (let left = times; left > 0; left--) {
      const { column, price } = machine.columns[left % machine.columns.length]!;
      machine.sellForCash(column, { coins: Array.from({ length: Math.ceil(price / 50) }, () => 50) });
    }
  };
  const visit = (plan: VisitPlan, date: string, row: number, cutAt: number): void => {
    order++;
    const at = `${date}T${clockText(plan.minute)}`;
    const name = `B${row}`;
    take(plan.capture, at, 'service', plan.bag === 'named' ? name : null, cutAt);
    const { coins, bills } = machine.collect();
    const when = plan.bag === 'dated' ? date : at;
    const count = makeCount('M1', when, { bag: name, coins: coins + plan.miscount, bills, row });
    const hasUsableCapture = plan.capture === 'whole' || plan.capture === 'again';
    bags.push({ order, content: coins + bills, row: plan.bag === 'missing' ? null : count, hasUsableCapture });
  };
  for (const [i, plan] of days.entries()) {
    const date = `2026-11-${String(i + 2).padStart(2, '0')}`;
    sell(plan.soldBefore);
    if (plan.visit !== null) visit(plan.visit, date, 2 * i + 2, plan.cutAt);
    sell(plan.soldAfter);
    if (plan.second !== null) visit(plan.second, date, 2 * i + 3, plan.cutAt);
    if (plan.second !== null) sell(plan.soldAfter);
    order++;
    if (hasNights) take(plan.night, `${date}T${clockText(plan.nightMinute)}`, 'scheduled', null, plan.cutAt);
  }
  const rows = came.map(
    ({ file, at, reason, bag }, i): CaptureListRow => ({
      file,
      receivedAt: at,
      reason: listing === 'reasons' ? reason : null,
      signal: null,
      filled: null,
      machine: null,
      bag: listing === 'reasons' ? bag : null,
      place: { file: 'captures.csv', row: i + 2 },
    }),
  );
  const roster = new Roster({ machines: [M1], capturesList: listing === 'none' ? [] : rows });
  const reads = came.flatMap(({ file, bytes }) =>
    takeReads(file, readCaptures(bytes).reads, { roster, check: faultsOnly }),
  );
  const counts = bags.map(({ row }) => row).filter((row) => row !== null);
  const { settlements } = settleRound({ reads, counts, roster });
  return {
    visits: settlements.flatMap(({ visits }) => visits),
    bags,
    orderOf: new Map(came.map(({ file, order: own }) => [file, own])),
  };
}
