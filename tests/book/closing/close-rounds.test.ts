import { describe, expect, it } from 'vitest';
import { closeRounds, closingsOf, recordAdjustments, settleBook } from '../../../src/book/closing/index.js';
import { hashLeaf } from '../../../src/book/merkle/index.js';
import { type BookStore, writeLeafText } from '../../../src/book/store/index.js';
import { verifyBook } from '../../../src/book/verify-book.js';
import { M1, makeCount, makeMachine, type Shown } from '../../settlement/scenario.js';
import { openBook, temporaryPath } from '../store/temporary-book.js';
import {
  ask,
  BAG,
  close,
  DAY,
  entriesOf,
  fillPlain,
  KIM,
  OPENING,
  onlyRound,
  rosterOf,
  takeIn,
  VISIT,
} from './fill-book.js';

/** A read of the night before the visit: up to it, what lies in the machine is known. */
const NIGHT: Shown = { at: `${DAY}T02:00`, reason: 'scheduled', box: 300 };

const totalOf = async (store: BookStore): Promise<number | null> => {
  const { worked } = await onlyRound(store);
  return worked!.totals.overShort.total;
};

describe('a day settled from the book', () => {
  it('comes out as from the files, and records nothing', async () => {
    const store = await openBook();
    await fillPlain(store);
    const before = await store.head();
    const { settlement, closing } = await onlyRound(store, [BAG]);
    expect(settlement).toMatchObject({ route: 'R1', day: DAY, currency: 'EUR', decimals: 2 });
    expect(settlement.visits).toMatchObject([
      {
        machine: 'M1',
        state: 'short',
        matchedBy: 'time',
        capture: 'tuesday.dex',
        since: 'monday.dex',
        expected: { coins: 500, bills: 1000 },
        overShort: { coins: -20, bills: 0, total: -20 },
      },
    ]);
    expect(closing).toEqual({
      closed: null,
      changes: null,
      adjustments: [],
      carried: [],
      withCarried: { coins: -20, bills: 0, total: -20 },
    });
    expect(await store.head()).toEqual(before);
  });

  it('is of the routes asked for', async () => {
    const store = await openBook();
    await fillPlain(store);
    expect((await settleBook(store, ask([BAG], { route: 'R2' }))).rounds).toEqual([]);
    expect((await settleBook(store, ask([BAG], { route: null }))).rounds).toEqual([]);
    expect((await settleBook(store, ask([BAG], { route: 'R1' }))).rounds).toHaveLength(1);
  });

  it('claims a service read without a bag as uncounted, a scheduled one not', async () => {
    const store = await openBook();
    await fillPlain(store);
    expect((await onlyRound(store)).settlement.visits).toMatchObject([{ state: 'uncounted' }]);
    const other = await openBook();
    await takeIn(other, 'monday.dex', OPENING);
    await takeIn(other, 'tuesday.dex', { ...VISIT, reason: 'scheduled' });
    expect((await settleBook(other, ask())).rounds).toEqual([]);
  });
});

describe('closing', () => {
  it('records the bags and the settlement with what it rests on', async () => {
    const store = await openBook();
    await fillPlain(store);
    expect(await close(store, [BAG])).toEqual({ counts: 1, corrections: 0, closed: 1, adjustments: 0, leftOpen: 0 });
    const [count] = await entriesOf(store, 'count-entered');
    expect(count).toMatchObject({ subject: 'machine M1', day: DAY, key: `count ["M1","${DAY}","bag","B1"]` });
    expect(JSON.parse(count!.body)).toMatchObject({
      coins: 480,
      bills: 1000,
      currency: 'EUR',
      decimals: 2,
      by: 'Kim',
      place: { file: 'counts.csv', row: 2 },
    });
    const [closing] = await closingsOf(store, { day: DAY });
    expect(closing).toMatchObject({
      entry: 3,
      recordedAt: KIM.recordedAt,
      by: 'Kim',
      key: `settlement "R1" ${DAY} EUR 2`,
    });
    expect(closing!.body.restsOn.map(({ entry }) => entry)).toEqual([0, 1, 2]);
    for (const { entry, leaf } of closing!.body.restsOn) {
      const found = (await store.entry(entry))!;
      expect(leaf).toBe(Buffer.from(hashLeaf(writeLeafText(found))).toString('hex'));
    }
    expect((await verifyBook(store)).fault).toBeNull();
  });

  it('again records nothing, and gives it as it was closed', async () => {
    const store = await openBook();
    await fillPlain(store);
    const open = await onlyRound(store, [BAG]);
    await close(store, [BAG]);
    const head = await store.head();
    expect(await close(store, [BAG])).toEqual({ counts: 0, corrections: 0, closed: 0, adjustments: 0, leftOpen: 0 });
    expect(await close(store)).toMatchObject({ closed: 0 });
    expect(await store.head()).toEqual(head);
    const { settlement, closing } = await onlyRound(store);
    expect(closing).toMatchObject({
      closed: { entry: 3, by: 'Kim', recordedAt: KIM.recordedAt },
      changes: null,
      adjustments: [],
    });
    expect(settlement.totals).toEqual(open.settlement.totals);
    expect(settlement.visits[0]).toMatchObject({ machine: 'M1', state: 'short', overShort: { total: -20 } });
  });

  it('does not come out otherwise for what the office says later', async () => {
    const store = await openBook();
    await fillPlain(store);
    await close(store, [BAG], { settle: { tolerance: { amount: 20, basisPoints: 0 } } });
    const elsewhere = [{ ...M1, route: 'R9', driver: 'Lee', location: 'Hall', hasCash: false }];
    const { rounds } = await settleBook(store, ask(null, { roster: rosterOf(elsewhere) }));
    expect(rounds).toHaveLength(1);
    expect(rounds[0]!.closing).toMatchObject({ closed: { by: 'Kim' }, changes: null });
    expect(rounds[0]!.settlement).toMatchObject({ route: 'R1', visits: [{ state: 'agreed' }] });
    expect(await close(store, null, { roster: rosterOf(elsewhere) })).toMatchObject({
      closed: 0,
      adjustments: 0,
      leftOpen: 0,
    });
    expect(await recordAdjustments(store, { recordedAt: () => KIM.recordedAt, roster: rosterOf(elsewhere) })).toEqual(
      [],
    );
  });

  it('lets bags of open visits be settled later', async () => {
    const store = await openBook();
    await takeIn(store, 'monday.dex', OPENING);
    await takeIn(store, 'night.dex', NIGHT);
    await close(store, [BAG]);
    const { settlement } = await onlyRound(store);
    expect(settlement.totals).toMatchObject({ settledVisits: 0, openVisits: 1, overShort: { total: null } });
    expect(settlement.visits).toMatchObject([{ state: 'unread', expectedIsFloor: true }]);
  });

  it('has one settlement a currency and route, each with a key of its own', async () => {
    const store = await openBook();
    const machines = [M1, makeMachine({ machine: 'M2', asset: 'A2', currency: 'JPY', route: 'R1' })];
    const roster = rosterOf([...machines, makeMachine({ machine: 'M3', asset: 'A3', currency: 'EUR' })]);
    for (const asset of ['A1', 'A2', 'A3']) {
      const money = asset === 'A2' ? '0*392*JPY' : '2*978*EUR';
      await takeIn(store, `1-${asset}`, { ...OPENING, asset, serial: asset, money }, { roster });
      await takeIn(store, `2-${asset}`, { ...VISIT, asset, serial: asset, money }, { roster });
    }
    const rows = ['M1', 'M2', 'M3'].map((machine, i) =>
      makeCount(machine, `${DAY}T10:00`, { coins: 500, bills: 1000, row: i + 2 }),
    );
    expect(await close(store, rows, { roster })).toMatchObject({ counts: 3, closed: 3 });
    const keys = (await closingsOf(store)).map(({ key }) => key);
    expect(keys.sort()).toEqual([
      `settlement "R1" ${DAY} EUR 2`,
      `settlement "R1" ${DAY} JPY 0`,
      `settlement null ${DAY} EUR 2`,
    ]);
  });
});

describe('facts that come after a closing', () => {
  it('are shown, and recorded as an adjustment once: a late capture settles a bag that had none', async () => {
    const store = await openBook();
    await takeIn(store, 'monday.dex', OPENING);
    await takeIn(store, 'night.dex', NIGHT);
    await close(store, [BAG]);
    const late = await takeIn(store, 'tuesday.dex', VISIT);
    const shown = await onlyRound(store);
    expect(shown.settlement.visits[0]!.state).toBe('unread');
    expect(shown.closing.changes).toEqual({
      expected: { coins: 500, bills: 1000 },
      counted: { coins: 480, bills: 1000 },
      overShort: { coins: -20, bills: 0, total: -20 },
      because: [{ entry: late, what: 'capture tuesday.dex' }],
      visits: [
        { field: 'state', from: 'unread', to: 'short', by: null },
        { field: 'expected.coins', from: 300, to: 500, by: 200 },
        { field: 'expected.bills', from: 0, to: 1000, by: 1000 },
        { field: 'overShort.coins', from: null, to: -20, by: -20 },
        { field: 'overShort.bills', from: null, to: 0, by: 0 },
        { field: 'overShort.total', from: null, to: -20, by: -20 },
      ].map((change) => ({ machine: 'M1', visitedAt: `${DAY}T10:00:00`, bag: 'B1', ...change })),
    });
    const options = { recordedAt: () => '2026-11-26T06:00:00.000Z' };
    expect(await recordAdjustments(store, options)).toEqual([{ settlement: 3, route: 'R1', day: DAY }]);
    expect(await recordAdjustments(store, options)).toEqual([]);
    expect(await close(store)).toMatchObject({ adjustments: 0, leftOpen: 0 });
    const { closing } = await onlyRound(store);
    expect(closing.changes).toBeNull();
    expect(closing.adjustments).toMatchObject([
      { entry: 5, by: null, recordedAt: '2026-11-26T06:00:00.000Z', carriedBy: null, overShort: { total: -20 } },
    ]);
    const [entry] = await entriesOf(store, 'adjustment');
    expect(entry).toMatchObject({ refersTo: 3, key: 'adjustment 1 of 3', day: DAY, subject: 'route "R1" EUR 2' });
    expect((await verifyBook(store)).fault).toBeNull();
  });

  it('a bag that turns up is taken in and adjusts', async () => {
    const store = await openBook();
    await fillPlain(store);
    // Nobody said which route: the sheet may still be to come.
    expect(await close(store)).toMatchObject({ closed: 0, leftOpen: 1 });
    expect(await close(store, null, { route: 'R1' })).toMatchObject({ closed: 1, leftOpen: 0 });
    expect((await onlyRound(store)).settlement.visits).toMatchObject([{ state: 'uncounted' }]);
    const found = makeCount('M1', `${DAY}T10:10`, { bag: 'B1', coins: 500, bills: 1000, row: 9 });
    const shown = await onlyRound(store, [found]);
    expect(shown.closing.changes!.because).toEqual([
      { entry: null, what: 'bag B1 of machine M1 (counts.csv, row 9), not in the book yet' },
    ]);
    expect(await close(store, [found])).toEqual({ counts: 1, corrections: 0, closed: 0, adjustments: 1, leftOpen: 0 });
    const { closing } = await onlyRound(store);
    expect(closing.changes).toBeNull();
    expect(closing.adjustments[0]).toMatchObject({
      because: [{ entry: 3, what: 'count of bag B1 of machine M1' }],
      overShort: { coins: 0, bills: 0, total: 0 },
    });
    expect(closing.adjustments[0]!.visits[0]).toMatchObject({ field: 'state', from: 'uncounted', to: 'agreed' });
  });

  it('a count that differs changes nothing, but is said', async () => {
    const store = await openBook();
    await fillPlain(store);
    await close(store, [BAG]);
    const again = { ...BAG, coins: 500, note: 'again', place: { file: 'recount.csv', row: 4 } };
    const { rounds, findings } = await settleBook(store, ask([again]));
    expect(rounds[0]!.closing.changes).toBeNull();
    expect(findings).toMatchObject([
      {
        code: 'duplicate-row',
        severity: 'doubt',
        file: 'recount.csv',
        row: 4,
        machine: 'M1',
        expected: 'coins 4.80 EUR',
        received: 'coins 5.00 EUR',
      },
    ]);
    expect(await close(store, [again])).toEqual({ counts: 0, corrections: 0, closed: 0, adjustments: 0, leftOpen: 0 });
  });

  it('a correction says who and why, stays beside what it corrects, and adjusts', async () => {
    const store = await openBook();
    await fillPlain(store);
    await close(store, [BAG]);
    const recount = makeCount('M1', DAY, { bag: 'B1', coins: 500, row: 4 });
    const correct = { by: 'Lee', recordedAt: '2026-11-26T07:00:00.000Z', reason: 'counted again with Ana' };
    // Without closing, the correction alone is recorded.
    expect(await closeRounds(store, ask([recount]), correct, false)).toMatchObject({
      counts: 0,
      corrections: 1,
      closed: 0,
      adjustments: 0,
    });
    const [entry] = await entriesOf(store, 'count-corrected');
    expect(entry).toMatchObject({ seq: 4, refersTo: 2, key: 'correction of 2' });
    expect(JSON.parse(entry!.body)).toMatchObject({
      reason: 'counted again with Ana',
      by: 'Lee',
      was: { coins: 480, bills: 1000 },
      now: { coins: 500, bills: 1000, visitedAt: { time: '10:00:00' } },
    });
    expect((await onlyRound(store)).closing.changes).toMatchObject({
      overShort: { total: 20 },
      because: [{ entry: 4, what: 'correction of bag B1 of machine M1: counted again with Ana' }],
    });
    expect(await closeRounds(store, ask([recount]), correct)).toMatchObject({
      counts: 0,
      corrections: 0,
      closed: 0,
      adjustments: 1,
    });
    // Corrected once more, in one go with its adjustment.
    const third = { ...recount, coins: 490 };
    expect(await closeRounds(store, ask([third]), correct)).toMatchObject({
      counts: 0,
      corrections: 1,
      closed: 0,
      adjustments: 1,
    });
    expect((await entriesOf(store, 'count-corrected'))[1]).toMatchObject({ refersTo: 4 });
    const { closing, settlement } = await onlyRound(store);
    expect(settlement.totals.overShort.total).toBe(-20);
    expect(closing.adjustments.map(({ overShort }) => overShort.total)).toEqual([20, -10]);
    expect(await totalOf(store)).toBe(-10);
    expect((await verifyBook(store)).fault).toBeNull();
  });
});

describe('adjustments', () => {
  /** A closed day of which the capture came late, and the next day's collection. */
  async function withLate(store: BookStore): Promise<void> {
    await takeIn(store, 'monday.dex', OPENING);
    await close(store, [BAG]);
    await takeIn(store, 'tuesday.dex', VISIT);
    await recordAdjustments(store, { recordedAt: () => KIM.recordedAt });
    await takeIn(store, 'wednesday.dex', { at: '2026-11-25T10:00', reason: 'service', box: 800, bills: 1000 });
  }
  const NEXT = makeCount('M1', '2026-11-25T10:00', { bag: 'B2', coins: 310, bills: 0 });

  it('are carried into the next settlement of the route and currency, once', async () => {
    const store = await openBook();
    await withLate(store);
    const open = await onlyRound(store, [NEXT], { day: '2026-11-25' });
    expect(open.closing).toMatchObject({
      closed: null,
      carried: [{ entry: 4, settlement: 2, day: DAY }],
      withCarried: { total: -10 },
    });
    expect(open.settlement.totals.overShort.total).toBe(10);
    await close(store, [NEXT], { day: '2026-11-25' });
    const { closing } = await onlyRound(store, null, { day: '2026-11-25' });
    expect(closing.carried).toMatchObject([
      { entry: 4, settlement: 2, overShort: { coins: -20, bills: 0, total: -20 } },
    ]);
    expect(closing.withCarried.total).toBe(-10);
    expect((await onlyRound(store)).closing.adjustments).toMatchObject([
      { entry: 4, carriedBy: closing.closed!.entry },
    ]);
    // The one after has nothing left to carry.
    await takeIn(store, 'thursday.dex', { at: '2026-11-26T10:00', reason: 'service', box: 900, bills: 1000 });
    const third = makeCount('M1', '2026-11-26T10:00', { coins: 100, bills: 0 });
    await close(store, [third], { day: '2026-11-26' });
    expect((await onlyRound(store, null, { day: '2026-11-26' })).closing.carried).toEqual([]);
  });

  it('are made of a joint bag taken apart too, and nothing is lost between the two days', async () => {
    const store = await openBook();
    await takeIn(store, 'monday.dex', OPENING);
    await close(store, [BAG]);
    await takeIn(store, 'wednesday.dex', { at: '2026-11-25T10:00', reason: 'service', box: 800, bills: 1000 });
    await close(store, [NEXT], { day: '2026-11-25' });
    const joint = (await onlyRound(store, null, { day: '2026-11-25' })).settlement;
    expect(joint).toMatchObject({
      totals: { overShort: { total: -10 } },
      visits: [{ jointBags: ['bag B1', 'bag B2'] }],
    });
    const late = await takeIn(store, 'tuesday.dex', VISIT);
    const adjusted = await recordAdjustments(store, { recordedAt: () => KIM.recordedAt, since: late });
    expect(adjusted.map(({ day }) => day)).toEqual([DAY, '2026-11-25']);
    const first = (await onlyRound(store)).closing.adjustments[0]!;
    const second = (await onlyRound(store, null, { day: '2026-11-25' })).closing.adjustments[0]!;
    expect([first.overShort.total, second.overShort.total]).toEqual([-20, 20]);
  });
});

describe('two closings at once', () => {
  it('make one, whichever comes first', async () => {
    const path = temporaryPath();
    const [one, other] = [await openBook(path), await openBook(path)];
    await fillPlain(one);
    const both = await Promise.all([close(one, [BAG]), closeRounds(other, ask([BAG]), { ...KIM, by: 'Lee' })]);
    expect(both.map(({ closed }) => closed).sort()).toEqual([0, 1]);
    expect(await entriesOf(one, 'settlement-closed', 'count-entered')).toHaveLength(2);
    expect((await verifyBook(other)).fault).toBeNull();
  });

  it('start again when the book grew meanwhile, and give up when it never stops', async () => {
    const store = await openBook();
    await fillPlain(store);
    let grown = 0;
    const restless = (times: number): BookStore =>
      new Proxy(store, {
        get(target, name) {
          if (name === 'recordEntries')
            return async (...args: Parameters<BookStore['recordEntries']>) => {
              if (grown < times)
                await takeIn(store, `${grown}.dex`, { at: '2026-11-20T10:00', asset: 'X', serial: `X${grown++}` });
              return target.recordEntries(...args);
            };
          const value = Reflect.get(target, name) as unknown;
          return typeof value === 'function' ? value.bind(target) : value;
        },
      });
    await expect(close(restless(1000), [BAG])).rejects.toMatchObject({ kind: 'busy' });
    expect(await entriesOf(store, 'settlement-closed', 'count-entered')).toEqual([]);
    grown = 0;
    expect(await close(restless(0), [BAG])).toMatchObject({ closed: 1 });
  });
});
