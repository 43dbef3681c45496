import { describe, expect, it } from 'vitest';
import { closeRounds, recordAdjustments, settleBook } from '../../../src/book/closing/index.js';
import { decimalsFromRoster, Roster } from '../../../src/sheets/index.js';
import { M1, makeCount, makeMachine } from '../../settlement/scenario.js';
import { openBook } from '../store/temporary-book.js';
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
  sheetOf,
  takeIn,
  VISIT,
} from './fill-book.js';

const NEXT = '2026-11-25';
const BAD_ROW = {
  machine: 'M1',
  visitedAt: { date: DAY, time: null },
  bag: 'B1',
  route: null,
  driver: null,
  why: 'counts.csv, row 2, column coins: "4x" is not an amount; expected an amount of 0 or more.',
  place: { file: 'counts.csv', row: 2 },
};

describe('captures of the book', () => {
  it('stay with their bags where every file has the same name', async () => {
    const store = await openBook();
    await takeIn(store, 'v1.dex', OPENING);
    await takeIn(store, 'v1.dex', { ...VISIT, reason: 'scheduled' });
    const named = { ...BAG, capture: 'v1.dex', visitedAt: { date: DAY, time: null } };
    const opening = makeCount('M1', '2026-11-23', { bag: 'B0', coins: 0, bills: 0, capture: 'v1.dex' });
    expect((await onlyRound(store, [named, opening])).settlement.visits).toMatchObject([
      { matchedBy: 'bag', expected: { coins: 500, bills: 1000 }, state: 'short' },
    ]);
    await close(store, [named, opening]);
    const body = JSON.parse((await entriesOf(store, 'count-entered'))[0]!.body) as { captureEntry: number };
    expect(body.captureEntry).toBe(1);
    // The name comes again, twice on the day itself: the bag stays with the file it was settled with.
    await takeIn(store, 'v1.dex', { at: `${DAY}T18:00`, reason: 'scheduled', box: 600, bills: 1000 });
    await takeIn(store, 'v1.dex', { at: `${NEXT}T10:00`, reason: 'service', box: 700, bills: 1000 });
    expect((await onlyRound(store)).inBook.pending).toEqual([]);
    expect(await recordAdjustments(store, { recordedAt: () => KIM.recordedAt })).toEqual([]);
  });

  it('are found when the machine came on the roster only later', async () => {
    const store = await openBook();
    await takeIn(store, 'monday.dex', OPENING, { roster: rosterOf([]) });
    await takeIn(store, 'tuesday.dex', VISIT, { roster: rosterOf([]) });
    expect((await onlyRound(store, [BAG])).settlement.visits).toMatchObject([{ machine: 'M1', state: 'short' }]);
  });

  it('are found by the number that the sheet calls a machine by, on no roster', async () => {
    const roster = rosterOf([]);
    for (const name of ['A1', 'S1']) {
      const store = await openBook();
      await takeIn(store, 'monday.dex', OPENING, { roster });
      await takeIn(store, 'tuesday.dex', VISIT, { roster });
      const row = { ...BAG, machine: name, route: 'R1' };
      const more = { roster, sheet: { ...sheetOf([row], roster), money: decimalsFromRoster([], 2) } };
      const { rounds } = await settleBook(store, ask(null, more));
      expect(rounds.map(({ settlement }) => settlement.visits)).toMatchObject([[{ machine: name, state: 'short' }]]);
    }
  });

  it('of a year give what those near the day give', async () => {
    const store = await openBook();
    for (let month = 1; month <= 9; month++) {
      const at = `2026-0${month}-10T10:00`;
      await takeIn(store, `${month}.dex`, { at, reason: 'service', box: month * 100, bills: month * 1000 });
    }
    const row = makeCount('M1', '2026-05-10T10:00', { coins: 100, bills: 1000 });
    const { settlement } = await onlyRound(store, [row], { day: '2026-05-10' });
    expect(settlement.visits).toMatchObject([{ since: '4.dex', state: 'agreed' }]);
    // Only some of the captures were looked at.
    expect(settlement.visits[0]!.expectedFrom).toHaveLength(1);
  });

  it('are of machines that a profile tells to clear their counters on service reads only', async () => {
    const store = await openBook();
    const profiles = [{ name: 'clears', resets: 'service-read' as const }];
    const office = new Roster({ machines: [{ ...M1, profile: 'clears' }], profiles });
    await takeIn(store, 'monday.dex', { ...OPENING, reason: 'service' }, { roster: office });
    await takeIn(store, 'tuesday.dex', VISIT, { roster: office });
    await close(store, [BAG], { roster: office });
    expect((await onlyRound(store)).inBook).toMatchObject({ closing: { by: 'Kim' }, pending: [] });
  });
});

describe('money', () => {
  it('of another currency is left aside, not mixed', async () => {
    const store = await openBook();
    await fillPlain(store);
    await close(store, [{ ...BAG, visitedAt: { date: '2026-11-23', time: '10:00:00' } }, BAG]);
    await takeIn(store, 'wednesday.dex', {
      at: `${NEXT}T10:00`,
      reason: 'service',
      box: 700,
      bills: 1000,
      money: '0*392*JPY',
    });
    const yen = rosterOf([{ ...M1, currency: 'JPY' }]);
    const row = makeCount('M1', `${NEXT}T10:00`, { coins: 200, bills: 0 });
    const { rounds, findings } = await settleBook(store, ask([row], { day: NEXT, roster: yen }));
    expect(findings.map(({ code }) => code)).toContain('currency-differs');
    expect(rounds.map(({ settlement }) => settlement.totals.settledVisits)).toEqual([0]);
  });

  it('of a correction in another currency takes nothing over from what it corrects', async () => {
    const store = await openBook();
    await fillPlain(store);
    await close(store, [BAG]);
    const yen = rosterOf([{ ...M1, currency: 'JPY' }]);
    const row = { ...BAG, coins: 5, bills: null, denominations: new Map() };
    await closeRounds(store, ask([row], { roster: yen }), { ...KIM, reason: 'wrong currency' }, { isClosing: false });
    const body = JSON.parse((await entriesOf(store, 'count-corrected'))[0]!.body) as { now: object };
    expect(body.now).toMatchObject({ coins: 5, bills: null, currency: 'JPY', decimals: 0 });
  });
});

describe('rows of a sheet', () => {
  it('that say nothing but another note are the same', async () => {
    const store = await openBook();
    await fillPlain(store);
    await close(store, [BAG]);
    const note = { ...BAG, note: 'torn bag', countedAt: NEXT, driver: null, coins: null };
    expect((await settleBook(store, ask([note]))).findings).toEqual([]);
    expect(await close(store, [note])).toMatchObject({ counts: 0 });
  });

  it('that name no bag are told apart by their order, and said to differ all the same', async () => {
    const store = await openBook();
    await fillPlain(store);
    const [one, two] = [1, 2].map((row) => makeCount('M1', `${DAY}T10:00`, { coins: 100 * row, row }));
    const both = await close(store, [one!, two!]);
    // Which of them is this visit's bag cannot be told.
    expect(both).toMatchObject({ counts: 2, closed: 0, notClosed: [{ route: 'R1', inTheWay: [expect.any(String)] }] });
    const keys = (await entriesOf(store, 'count-entered')).map(({ key }) => key);
    expect(keys).toEqual([`count ["M1","${DAY}","10:00:00"]`, `count ["M1","${DAY}","10:00:00"] 2`]);
    const { findings } = await settleBook(store, ask([two!]));
    expect(findings.map(({ message }) => message)).toContainEqual(expect.stringContaining('The bag of machine M1'));
  });

  it('with another driver, route or capture change nothing without a reason', async () => {
    const store = await openBook();
    await fillPlain(store);
    await close(store, [BAG]);
    const other = { ...BAG, driver: 'Bo', route: 'R2', capture: 'x.dex', paidOut: 50 };
    const { findings } = await settleBook(store, ask([other]));
    expect(findings[0]!.message).toContain('paid out not given, route not given, driver not given, capture not given');
    expect(await closeRounds(store, ask([other]), { ...KIM, reason: 'found out' })).toMatchObject({
      corrections: 1,
      adjustments: 1,
      // The bag is another route's now, where nothing was closed before.
      closed: 1,
    });
    const { rounds } = await settleBook(store, ask());
    expect(rounds.map(({ settlement }) => [settlement.route, settlement.totals.overShort.total])).toEqual([
      ['R1', null],
      ['R2', -70],
    ]);
    expect(rounds[0]!.inBook.adjustments[0]).toMatchObject({
      overShort: 20,
      byDriver: [{ driver: 'Kim', overShort: 20 }],
      changes: expect.arrayContaining([expect.objectContaining({ field: 'state', from: 'short', to: null })]) as object,
    });
    expect(rounds.flatMap(({ inBook }) => inBook.pending)).toEqual([]);
  });

  it('that could not be used keep a machine from being claimed as uncounted, also later', async () => {
    const store = await openBook();
    await fillPlain(store);
    const sheet = { ...sheetOf([]), unusable: [BAD_ROW] };
    await close(store, null, { sheet }, { anyway: 'the sheet is torn' });
    const { settlement, inBook } = await onlyRound(store);
    expect([settlement.visits[0]!.state, inBook.pending]).toEqual(['unsettled', []]);
    expect(settlement.visits[0]).toMatchObject({ bag: 'B1', findings: [{ code: 'bad-row' }] });
  });
});

describe('a machine that no closing has', () => {
  const M2 = makeMachine({ machine: 'M2', asset: 'A2', currency: 'EUR', route: 'R1' });
  const more = { asset: 'A2', serial: 'S2' };

  it('adjusts the round it was visited on', async () => {
    const store = await openBook();
    await fillPlain(store);
    await close(store, [BAG]);
    const roster = rosterOf([M1, M2]);
    await takeIn(store, 'm2-monday.dex', { ...OPENING, ...more }, { roster });
    const late = await takeIn(store, 'm2-tuesday.dex', { ...VISIT, ...more }, { roster });
    expect(await recordAdjustments(store, { recordedAt: () => KIM.recordedAt, roster, since: late })).toHaveLength(1);
    const { inBook } = await onlyRound(store, null, { roster });
    expect(inBook.adjustments[0]!.changes[0]).toMatchObject({
      machine: 'M2',
      field: 'state',
      from: null,
      to: 'uncounted',
    });
    // From then on the book knows whose route it is on, whatever roster is at hand.
    expect(await recordAdjustments(store, { recordedAt: () => KIM.recordedAt })).toEqual([]);
    expect((await onlyRound(store, null, { roster: rosterOf([]) })).inBook.pending).toEqual([]);
  });
});
