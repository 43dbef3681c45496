import { type ColumnTruth, type Snapshot, type Truth, truthBetween } from '../simulator/index.js';
import type { DemoCapture } from './demo-captures.js';
import { type DemoCount, SHORT_BAG } from './demo-counts.js';
import type { SoldByCard } from './demo-deposits.js';
import { DAYS, DRIVER, OPERATOR, ROUTE } from './demo-roster.js';
import type { DemoLife, DemoRead } from './play-days.js';

interface Money {
  readonly coins: number;
  readonly bills: number;
}

const minus = (a: Money, b: Money): Money => ({ coins: a.coins - b.coins, bills: a.bills - b.bills });

/** What counters that cover a stretch say should be in the bag. */
const bagOf = ({ cash }: Truth): Money => ({ coins: cash.toCashBox + cash.byHand - cash.filled, bills: cash.bills });

function fileOf(captures: readonly DemoCapture[], read: DemoRead | undefined): string | null {
  const found = captures.find(
    ({ machine, at, file }) => machine === read?.machine && at === read.at && !/again|mailed/.test(file),
  );
  return found?.file ?? null;
}

/** Sales by column, with the price planned on the last day and what a label off plan has cost. */
function describeColumns(life: DemoLife, columns: readonly ColumnTruth[]): unknown[] {
  return columns.map(({ testValue: _t, freeValue: _f, discounted: _n, discounts: _d, ...column }) => {
    const pricePlan = life.plan.plan.get(column.column)?.price ?? column.priceTo!;
    const lossFromPrice = column.sold * (pricePlan - column.priceTo!);
    return { ...column, pricePlan, lossFromPrice };
  });
}

/** What can be known of a machine at whose visit something is in the way, and what cannot. */
function describeObstacle(life: DemoLife, opening: Snapshot, visit: Snapshot): Record<string, unknown> {
  if (life.restart !== null) {
    const { before, start } = life.restart;
    const lastRead = life.reads.filter(({ at }) => at < before.at).at(-1)!.read.snapshot;
    return {
      restart: { cause: 'board-changed', at: start.at },
      expectedUpToLastReadBefore: bagOf(truthBetween(opening, lastRead)),
      expectedSinceRestart: bagOf(truthBetween(start, visit)),
      lostBetween: bagOf(truthBetween(lastRead, before)),
    };
  }
  const lastRead = life.reads.filter(({ at }) => at < visit.at).at(-1)!.read.snapshot;
  return { expectedUpToLastReadBefore: bagOf(truthBetween(opening, lastRead)) };
}

function describeVisit(life: DemoLife, count: DemoCount, captures: readonly DemoCapture[]): Record<string, unknown> {
  const [opening, visit] = life.visits as [DemoLife['visits'][number], DemoLife['visits'][number]];
  const truth = truthBetween(opening.snapshot, visit.snapshot);
  const serviceReads = life.reads.filter(({ reason }) => reason === 'service');
  const capture = fileOf(captures, serviceReads[1]);
  const isShort = life.plan.machine === SHORT_BAG.machine;
  const isWhole = life.restart === null && capture !== null;
  const {
    billCount: _b,
    tubesUnrecorded: _u,
    creditStanding: _c,
    bookedCashSales: _x,
    bookedCardSales: _y,
    ...cash
  } = truth.cash;
  return {
    machine: life.plan.machine,
    location: life.plan.location,
    bag: count.bag,
    openingCapture: fileOf(captures, serviceReads[0]),
    visitCapture: capture,
    openedAt: opening.at,
    visitedAt: visit.at,
    state: life.restart !== null ? 'unsettled' : capture === null ? 'unread' : isShort ? 'short' : 'agreed',
    inTheBag: bagOf(truth),
    counted: { coins: count.coins, bills: count.bills },
    overShort: minus({ coins: count.coins, bills: count.bills }, bagOf(truth)),
    ...(isWhole ? {} : { known: describeObstacle(life, opening.snapshot, visit.snapshot) }),
    totals: truth.totals,
    cash,
    columns: describeColumns(life, truth.columns),
  };
}

function describeTotals(lives: readonly DemoLife[], counts: readonly DemoCount[]): Record<string, unknown> {
  const truths = lives.map(({ visits }) => truthBetween(visits[0]!.snapshot, visits[1]!.snapshot));
  const sum = (pick: (truth: Truth) => number): number => truths.reduce((total, truth) => total + pick(truth), 0);
  const inTheBags = { coins: sum((truth) => bagOf(truth).coins), bills: sum((truth) => bagOf(truth).bills) };
  const counted = {
    coins: counts.reduce((total, count) => total + count.coins, 0),
    bills: counts.reduce((total, count) => total + count.bills, 0),
  };
  return {
    inTheBags,
    counted,
    overShort: minus(counted, inTheBags),
    cardSales: sum((truth) => truth.cash.cardSales),
    sold: sum((truth) => truth.totals.sold),
    value: sum((truth) => truth.totals.value),
  };
}

/** Everything that is known of the demo because it was made so. Money in minor units. */
export function describeTruth(
  lives: readonly DemoLife[],
  captures: readonly DemoCapture[],
  counts: readonly DemoCount[],
  cardDays: readonly SoldByCard[],
): Record<string, unknown> {
  return {
    origin:
      'Invented. Made by the generator under tests/support/demo; the figures are what happened, not what was read.',
    operator: OPERATOR,
    route: ROUTE,
    driver: DRIVER,
    currency: 'EUR',
    decimals: 2,
    days: DAYS,
    visits: lives.map((life, place) => describeVisit(life, counts[place]!, captures)),
    totals: describeTotals(lives, counts),
    cardDays,
    captures: captures.map(({ file, machine, reason, at, fault, detail }) => ({
      file,
      machine,
      reason,
      at,
      fault,
      detail,
    })),
  };
}
