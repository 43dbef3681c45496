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
  RECORDED,
  rosterOf,
  takeIn,
  VISIT,
} from './fill-book.js';

/** What closes a round of which nothing is settled. */
const ANYWAY = { anyway: 'the capture is still to come' };

/** A read of the night before the visit: up to it, what lies in the machine is known. */
const NIGHT: Shown = { at: `${DAY}T02:00`, reason: 'scheduled', box: 300 };

const totalOf = async (store: BookStore): Promise<number | null> => {
  const { settlement } = await onlyRound(store);
  return settlement.totals.overShort.total;
};

describe('a day settled from the book', () => {
  it('comes out as from the files, and records nothing', async () => {
    const store = await openBook();
    await fillPlain(store);
    const before = await store.head();
    const { settlement, inBook } = await onlyRound(store, [BAG]);
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
    expect(inBook).toEqual({
      closing: null,
      asClosed: null,
      asItStands: settlement.totals,
      adjustments: [],
      pending: [],
      pendingAdjustment: null,
      inTheWay: [],
      drivers: [
        {
          driver: 'Kim',
          totals: settlement.totals,
          asClosed: null,
          asItStands: settlement.totals,
          carried: [],
          overShortWithCarried: -20,
        },
      ],
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
    expect(await close(store, [BAG])).toEqual({ ...RECORDED, counts: 1, closed: 1 });
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
    expect(await close(store, [BAG])).toEqual(RECORDED);
    expect(await close(store)).toMatchObject({ closed: 0 });
    expect(await store.head()).toEqual(head);
    const { settlement, inBook } = await onlyRound(store);
    expect(inBook).toMatchObject({
      closing: { entry: 3, by: 'Kim', at: KIM.recordedAt, reason: null },
      pending: [],
      adjustments: [],
    });
    expect(inBook.asClosed).toEqual(open.settlement.totals);
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
    expect(rounds[0]!.inBook).toMatchObject({ closing: { by: 'Kim' }, pending: [] });
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
    await close(store, [BAG], {}, ANYWAY);
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
    await close(store, [BAG], {}, ANYWAY);
    const late = await takeIn(store, 'tuesday.dex', VISIT);
    const shown = await onlyRound(store);
    expect(shown.settlement.visits[0]!.state).toBe('short');
    expect(shown.asClosed!.visits[0]!.state).toBe('unread');
    const pending = [
      { field: 'state', from: 'unread', to: 'short' },
      { field: 'expected.coins', from: 300, to: 500 },
      { field: 'expected.bills', from: 0, to: 1000 },
      { field: 'overShort.coins', from: null, to: -20 },
      { field: 'overShort.bills', from: null, to: 0 },
      { field: 'overShort.total', from: null, to: -20 },
    ].map((change) => ({ machine: 'M1', visitedAt: `${DAY}T10:00:00`, bag: 'B1', driver: 'Kim', ...change }));
    const ofRound = [
      { field: 'expected.coins', from: null, to: 500 },
      { field: 'expected.bills', from: null, to: 1000 },
      { field: 'counted.coins', from: null, to: 480 },
      { field: 'counted.bills', from: null, to: 1000 },
      { field: 'overShort.coins', from: null, to: -20 },
      { field: 'overShort.bills', from: null, to: 0 },
      { field: 'overShort.total', from: null, to: -20 },
      { field: 'cardSales', from: null, to: 0 },
      { field: 'sold', from: null, to: 15 },
      { field: 'value', from: null, to: 1500 },
      { field: 'settledVisits', from: 0, to: 1 },
      { field: 'openVisits', from: 1, to: 0 },
      { field: 'countedOpen.coins', from: 480, to: 0 },
      { field: 'countedOpen.bills', from: 1000, to: 0 },
    ].map((change) => ({ machine: null, visitedAt: null, bag: null, driver: null, ...change }));
    expect(shown.inBook.pending).toEqual([...pending, ...ofRound]);
    const because = [{ entry: late, what: 'capture tuesday.dex' }];
    const byDriver = [{ driver: 'Kim', overShort: -20 }];
    expect(shown.inBook.pendingAdjustment).toEqual({ because, overShort: -20, byDriver });
    const options = { recordedAt: () => '2026-11-26T06:00:00.000Z' };
    expect(await recordAdjustments(store, options)).toEqual([{ entry: 5, settlement: 3, route: 'R1', day: DAY }]);
    expect(await recordAdjustments(store, options)).toEqual([]);
    expect(await close(store)).toMatchObject({ adjustments: 0, leftOpen: 0 });
    const { inBook } = await onlyRound(store);
    expect([inBook.pending, inBook.pendingAdjustment]).toEqual([[], null]);
    expect(inBook.adjustments).toEqual([
      {
        entry: 5,
        by: null,
        at: '2026-11-26T06:00:00.000Z',
        because,
        overShort: -20,
        changes: [...pending, ...ofRound],
        byDriver: [{ driver: 'Kim', overShort: -20, carriedTo: null }],
      },
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
    const refused = await close(store, null, { route: 'R1' });
    expect(refused).toMatchObject({
      closed: 0,
      notClosed: [{ route: 'R1', inTheWay: ['No visit of it is settled.'] }],
    });
    expect(await close(store, null, { route: 'R1' }, ANYWAY)).toMatchObject({ closed: 1, leftOpen: 0 });
    expect((await onlyRound(store)).inBook.closing!.reason).toBe('the capture is still to come');
    expect((await onlyRound(store)).settlement.visits).toMatchObject([{ state: 'uncounted' }]);
    const found = makeCount('M1', `${DAY}T10:10`, { bag: 'B1', coins: 500, bills: 1000, row: 9 });
    const shown = await onlyRound(store, [found]);
    expect(shown.inBook.pendingAdjustment!.because).toEqual([
      { entry: null, what: 'bag B1 of machine M1 (counts.csv, row 9), not in the book yet' },
    ]);
    expect(await close(store, [found])).toMatchObject({ counts: 1, closed: 0, adjustments: 1 });
    const { inBook } = await onlyRound(store);
    expect(inBook.pending).toEqual([]);
    expect(inBook.adjustments[0]).toMatchObject({
      because: [{ entry: 3, what: 'count of bag B1 of machine M1' }],
      overShort: 0,
      byDriver: [{ driver: 'Kim', overShort: 0, carriedTo: null }],
    });
    expect(inBook.adjustments[0]!.changes[0]).toMatchObject({ field: 'state', from: 'uncounted', to: 'agreed' });
  });

  it('a count that differs changes nothing, but is said', async () => {
    const store = await openBook();
    await fillPlain(store);
    await close(store, [BAG]);
    const again = { ...BAG, coins: 500, note: 'again', place: { file: 'recount.csv', row: 4 } };
    const { rounds, findings } = await settleBook(store, ask([again]));
    expect(rounds[0]!.inBook.pending).toEqual([]);
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
    expect(await close(store, [again])).toMatchObject({ counts: 0, corrections: 0, closed: 0, adjustments: 0 });
  });

  it('a correction says who and why, stays beside what it corrects, and adjusts', async () => {
    const store = await openBook();
    await fillPlain(store);
    await close(store, [BAG]);
    const recount = makeCount('M1', DAY, { bag: 'B1', coins: 500, row: 4 });
    const correct = { by: 'Lee', recordedAt: '2026-11-26T07:00:00.000Z', reason: 'counted again with Ana' };
    // What the correction makes true is recorded with it, whether the day is closed again or not.
    expect(await closeRounds(store, ask([recount]), correct, { isClosing: false })).toMatchObject({
      counts: 0,
      corrections: 1,
      closed: 0,
      adjustments: 1,
      adjusted: [{ entry: 5, settlement: 3, route: 'R1', day: DAY }],
    });
    const [entry] = await entriesOf(store, 'count-corrected');
    expect(entry).toMatchObject({ seq: 4, refersTo: 2, key: 'correction of 2' });
    expect(JSON.parse(entry!.body)).toMatchObject({
      reason: 'counted again with Ana',
      by: 'Lee',
      was: { coins: 480, bills: 1000 },
      now: { coins: 500, bills: 1000, visitedAt: { time: '10:00:00' } },
    });
    expect((await onlyRound(store)).inBook).toMatchObject({
      pending: [],
      adjustments: [
        {
          overShort: 20,
          because: [{ entry: 4, what: 'correction of bag B1 of machine M1: counted again with Ana' }],
        },
      ],
    });
    expect(await closeRounds(store, ask([recount]), correct)).toMatchObject({ corrections: 0, adjustments: 0 });
    // Corrected once more.
    const third = { ...recount, coins: 490 };
    expect(await closeRounds(store, ask([third]), correct)).toMatchObject({
      counts: 0,
      corrections: 1,
      closed: 0,
      adjustments: 1,
    });
    expect((await entriesOf(store, 'count-corrected'))[1]).toMatchObject({ refersTo: 4 });
    const { inBook } = await onlyRound(store);
    expect(inBook.asClosed!.overShort.total).toBe(-20);
    expect(inBook.adjustments.map(({ overShort }) => overShort)).toEqual([20, -10]);
    expect(await totalOf(store)).toBe(-10);
    expect((await verifyBook(store)).fault).toBeNull();
  });
});

describe('adjustments', () => {
  /** A closed day of which the capture came late, and the next day's collection. */
  async function withLate(store: BookStore): Promise<void> {
    await takeIn(store, 'monday.dex', OPENING);
    await close(store, [BAG], {}, ANYWAY);
    await takeIn(store, 'tuesday.dex', VISIT);
    await recordAdjustments(store, { recordedAt: () => KIM.recordedAt });
    await takeIn(store, 'wednesday.dex', { at: '2026-11-25T10:00', reason: 'service', box: 800, bills: 1000 });
  }
  const NEXT = makeCount('M1', '2026-11-25T10:00', { bag: 'B2', coins: 310, bills: 0 });

  it('are carried into the next settlement in which their driver has a visit, once', async () => {
    const store = await openBook();
    await withLate(store);
    const open = await onlyRound(store, [NEXT], { day: '2026-11-25' });
    const part = { entry: 4, route: 'R1', day: DAY, overShort: -20 };
    expect(open.inBook).toMatchObject({
      closing: null,
      drivers: [{ driver: 'Kim', carried: [part], overShortWithCarried: -10 }],
    });
    expect(open.settlement.totals.overShort.total).toBe(10);
    expect(await close(store, [NEXT], { day: '2026-11-25' })).toMatchObject({ closed: 1, carried: 1 });
    const { inBook } = await onlyRound(store, null, { day: '2026-11-25' });
    expect(inBook.drivers).toMatchObject([{ driver: 'Kim', carried: [part], overShortWithCarried: -10 }]);
    const first = await onlyRound(store);
    expect(first.inBook.adjustments).toMatchObject([
      {
        entry: 4,
        byDriver: [{ driver: 'Kim', carriedTo: { entry: inBook.closing!.entry, route: 'R1', day: '2026-11-25' } }],
      },
    ]);
    // It stands 0.20 short, and that is answered for with the later round.
    expect(first.inBook.drivers).toMatchObject([
      { asItStands: { overShort: { total: -20 } }, overShortWithCarried: 0 },
    ]);
    // The one after has nothing left to carry.
    await takeIn(store, 'thursday.dex', { at: '2026-11-26T10:00', reason: 'service', box: 900, bills: 1000 });
    const third = makeCount('M1', '2026-11-26T10:00', { coins: 100, bills: 0 });
    expect(await close(store, [third], { day: '2026-11-26' })).toMatchObject({ closed: 1, carried: 0 });
    expect((await onlyRound(store, null, { day: '2026-11-26' })).inBook.drivers).toMatchObject([{ carried: [] }]);
  });

  it('are made of a joint bag taken apart too, and nothing is lost between the two days', async () => {
    const store = await openBook();
    await takeIn(store, 'monday.dex', OPENING);
    await close(store, [BAG], {}, ANYWAY);
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
    const first = (await onlyRound(store)).inBook.adjustments[0]!;
    const second = (await onlyRound(store, null, { day: '2026-11-25' })).inBook.adjustments[0]!;
    expect([first.overShort, second.overShort]).toEqual([-20, 20]);
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
