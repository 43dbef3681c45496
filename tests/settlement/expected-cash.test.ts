import { describe, expect, it } from 'vitest';
import { buildInterval, type Interval } from '../../src/interval/index.js';
import type { CountRow, MachineRow } from '../../src/model/index.js';
import type { Profile } from '../../src/profile/index.js';
import { expectCash, isNothing } from '../../src/settlement/expected-cash.js';
import { M1, makeCount, type Shown, takeScenario } from './scenario.js';

const OPENING = { at: '2026-11-20T10:00' };

/** The interval from one capture to another of the plain machine. */
function between(
  from: Partial<Shown>,
  to: Partial<Shown>,
  machine: MachineRow = M1,
  profiles: Profile[] = [],
): Interval {
  const captures = { 'a.dex': { ...OPENING, ...from }, 'b.dex': { at: '2026-11-24T10:00', ...to } };
  const { reads, roster } = takeScenario({ captures, machines: [machine], profiles });
  return buildInterval(reads[0]!, reads[1]!, roster);
}

const count = (given: Partial<CountRow>): CountRow => ({ ...makeCount('M1', '2026-11-24T10:00'), ...given });
const expectOf = (pieces: readonly Interval[], counts: readonly CountRow[] = [], ignore = false) =>
  expectCash(pieces, { counts, ignore });

describe('what should be in the bag: worked examples', () => {
  it('is the coin of 1.00 that went to the box, not the sale of 0.20 (SEM 9900X manual, p. 17)', () => {
    const interval = between({}, { box: 100, cashSales: 20, dispensed: 80 });
    expect(expectOf([interval]).cash).toEqual({ coins: 100, bills: 0 });
    expect(interval.cash).toMatchObject({ cashSales: 20, dispensed: 80 });
  });

  it('is the 145.35 of a box meter that was cleared at the last pick-up (SEM 9900X manual, p. 17)', () => {
    // A machine with nothing but a meter since the last reset.
    const ca3 = (box: number): string => `CA3*${box}*${box}*0*0`;
    const profile: Profile = { name: 'P', resets: 'service-read' };
    const machine = { ...M1, profile: 'P', hasBills: false };
    const from = { ca3: ca3(9_900), ca10: null, ca4: null, reason: 'service' } as const;
    const interval = between(from, { ca3: ca3(14_535), ca10: null, ca4: null }, machine, [profile]);
    expect(expectOf([interval])).toMatchObject({ cash: { coins: 14_535, bills: 0 }, isFloor: false });
    // Where nothing says when it is cleared, somebody may have taken from the box before.
    const unsaid = between(from, { ca3: ca3(14_535), ca10: null, ca4: null }, { ...M1, hasBills: false });
    expect(expectOf([unsaid])).toMatchObject({ isFloor: true });
  });

  it('is what a lifetime meter moved by: 9875.60 at the last visit, 10001.20 now (SEM 9900X manual, French edition, p. 18)', () => {
    const ca3 = (box: number): string => `CA3*0*0*0*0*${box}*${box}*0*0`;
    const { cash } = expectOf([between({ ca3: ca3(987_560) }, { ca3: ca3(1_000_120) })]);
    expect(cash).toEqual({ coins: 12_560, bills: 0 });
  });

  it('is the whole coin of a customer who got too little change back: overpaid (N&W Melodia Classic manual, p. 47)', () => {
    // 2.00 put in, 1.50 the price, nothing given back.
    expect(expectOf([between({}, { box: 200, cashSales: 150 })]).cash).toEqual({ coins: 200, bills: 0 });
  });
});

describe('what should be in the bag: conservation', () => {
  const moved = between({}, { box: 5000, bills: 2000, tubes: 800, byHand: 300, filled: 1200 });

  it('is bills, and coins to the box, plus paid out by hand, less filled by hand; each a line', () => {
    expect(expectOf([moved])).toEqual({
      cash: { coins: 5000 + 300 - 1200, bills: 2000 },
      lines: [
        { what: 'to-cash-box', kind: 'coins', amount: 5000, source: 'counters' },
        { what: 'paid-out', kind: 'coins', amount: 300, source: 'counters' },
        { what: 'filled', kind: 'coins', amount: -1200, source: 'counters' },
        { what: 'bills', kind: 'bills', amount: 2000, source: 'counters' },
      ],
      isFloor: false,
    });
  });

  it('is below nothing when more was filled than collected', () => {
    expect(expectOf([between({}, { box: 100, filled: 900 })]).cash.coins).toBe(-800);
  });

  it('leaves hand moves out by an option, whatever says them', () => {
    const { cash, lines } = expectOf([moved], [count({ paidOut: 1, filled: 2, floatIssued: 3 })], true);
    expect(cash).toEqual({ coins: 5000, bills: 2000 });
    expect(lines.map(({ what }) => what)).toEqual(['to-cash-box', 'bills']);
  });

  it("goes by the sheet where it says what was paid out, filled and issued as float; box + out - in + the driver's float", () => {
    const { cash, lines } = expectOf([moved], [count({ paidOut: 500, filled: 2000, floatIssued: 2500 })]);
    expect(cash.coins).toBe(5000 + 500 - 2000 + 2500);
    expect(lines.filter(({ source }) => source === 'sheet').map(({ what, amount }) => [what, amount])).toEqual([
      ['paid-out', 500],
      ['filled', -2000],
      ['float-issued', 2500],
    ]);
  });

  it('takes 0 on the sheet for what it says', () => {
    expect(expectOf([moved], [count({ filled: 0 })]).cash.coins).toBe(5300);
  });

  it('adds up what the sheet says for joint bags', () => {
    const rows = [count({ filled: 1000 }), count({ filled: 500, floatIssued: 700 })];
    expect(expectOf([moved], rows).cash.coins).toBe(5000 + 300 - 1500 + 700);
  });

  it('does not know what was filled where only one of joint bags says it, unless the counters say the same', () => {
    const partly = expectOf([moved], [count({ filled: 1000 }), count({})]);
    expect(partly.cash).toEqual({ coins: null, bills: 2000 });
    expect(partly.lines[2]).toMatchObject({ what: 'filled', amount: null, source: 'sheet' });
    expect(expectOf([moved], [count({ filled: 1200 }), count({})]).cash.coins).toBe(4100);
  });

  it('has nothing moved by hand on a machine without such counters', () => {
    const plain = { ca4: null, ca10: null };
    expect(expectOf([between(plain, { ...plain, box: 70 })]).cash.coins).toBe(70);
  });

  it('adds up several intervals', () => {
    const later = between(
      { box: 5000, bills: 2000, byHand: 300, filled: 1200 },
      { box: 5500, bills: 2500, byHand: 300, filled: 1200 },
    );
    expect(expectOf([moved, later]).cash).toEqual({ coins: 4600, bills: 2500 });
  });
});

describe('what should be in the bag: not known, or a floor', () => {
  it('is not known where a counter is missing, and never 0', () => {
    expect(expectOf([between({}, { ca3: null })]).cash).toEqual({ coins: null, bills: null });
  });

  it('knows the bills of a machine that gives their number: what cash in leaves over (Crane Autobar Infinity, p. 33)', () => {
    const from = { ca3: 'CA3*0*0*0*0*100000*20000*30000*50' };
    const interval = between(from, { ca3: 'CA3*0*0*0*0*103500*20500*31000*53' });
    expect(expectOf([interval]).cash).toEqual({ coins: 500, bills: 2000 });
  });

  it('expects no bills of a machine that by the roster takes none and has no counter of them', () => {
    const ca3 = (box: number): string => `CA3*${box}*${box}**`;
    const lone = (hasBills: boolean | null, to = 'CA3**50****1500') =>
      expectOf([between({ ca3: 'CA3**0****1000' }, { ca3: to }, { ...M1, hasBills })]).cash;
    expect(ca3(1)).toBe('CA3*1*1**');
    expect(lone(false)).toEqual({ coins: 500, bills: 0 });
    expect(lone(null)).toEqual({ coins: 500, bills: null });
    expect(lone(false, 'CA3**50*****1500*7')).toMatchObject({ bills: null });
  });

  it('is a floor after a restart', () => {
    const zeros = { ca4: 'CA4*0*0*0*0', ca10: 'CA10*0*0', cashSales: -99_300, sold: -993 };
    const restarted = between({ box: 900 }, { ...zeros, board: 'B2', ca3: 'CA3*700*500*0*200*700*500*0*200' });
    expect(expectOf([restarted])).toMatchObject({ cash: { coins: 500, bills: 200 }, isFloor: true });
  });

  it('is no floor where the sheet says all that counters would only give the least of', () => {
    // Filled since the last reset only, and somebody else cleared it.
    const from = { ca10: 'CA10*900', boxSinceReset: 0 };
    const to = { ca10: 'CA10*100', box: 400, boxSinceReset: 100 };
    const unseen = between(from, to);
    expect(expectOf([unseen]).isFloor).toBe(true);
    expect(expectOf([unseen], [count({ filled: 1000 })])).toMatchObject({ isFloor: false, cash: { coins: -600 } });
  });

  it('is a floor where bills are', () => {
    // No lifetime counters, and lower than before: somebody cleared them in between.
    const plain = { ca4: null, ca10: null };
    const interval = between({ ...plain, ca3: 'CA3*900*0*0*900' }, { ...plain, ca3: 'CA3*300*0*0*300' });
    expect(expectOf([interval])).toMatchObject({ cash: { bills: 300 }, isFloor: true });
  });

  it('is no floor where the value of the bills is exact, whatever other counters are', () => {
    const from = { ca3: 'CA3*900*0*0*900**20000***900*5000' };
    const interval = between(from, { ca3: 'CA3*300*0*0*300**20000***300*5600' });
    expect(interval.differences.cashIn.floor).toBe(true);
    expect(expectOf([interval])).toMatchObject({ cash: { coins: 0, bills: 600 }, isFloor: false });
  });
});

describe('isNothing', () => {
  it('is true where no line moved anything', () => {
    expect(isNothing(expectOf([between({}, {})]))).toBe(true);
    expect(isNothing(expectOf([between({}, { tubes: 500 })]))).toBe(true);
  });

  it('is false where anything moved, even if it comes to nothing', () => {
    expect(isNothing(expectOf([between({}, { box: 10 })]))).toBe(false);
    expect(isNothing(expectOf([between({}, { byHand: 500, filled: 500 })]))).toBe(false);
    expect(isNothing(expectOf([between({}, { ca3: null })]))).toBe(false);
  });
});
