import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { matchDeposits, stateCommissions } from '../../src/accounts/index.js';
import { buildIntervals } from '../../src/interval/index.js';
import { formatMinor } from '../../src/model/index.js';
import { decimalsFromRoster, readDeposits, readMachines } from '../../src/sheets/index.js';
import { arbitraryHistory, type History, type HistoryChoice } from '../support/arbitraries/history.js';
import { profileOf, takeHistory } from '../support/interval-truth.js';

/** Simulated machines in every way that leaves a clock to go by; some book cash sales as card sales, some start again. */
const LIFE: HistoryChoice = {
  discounts: true,
  revalues: true,
  standingCredit: true,
  unseenResets: true,
  tubeFaults: true,
  machine: { minPastVends: 400, maker: { discounts: true }, cashSalesBookedAs: ['CA', 'CA', 'DA', 'DB'] },
};

function take(history: History) {
  const { config } = history;
  const { currency, decimals } = config.money;
  const devices = `${config.devices.coins ? 'yes' : 'no'},${config.devices.card ? 'yes' : 'no'}`;
  const content = [
    'machine,asset,serial,location,currency,decimals,has_cash,has_card,commission_percent,commission_base',
    `M1,${config.identity.asset},${config.identity.serial},Hall,${currency},${decimals},${devices},10,gross`,
  ].join('\n');
  const { rows: machines } = readMachines({ file: 'm.csv', content });
  const books = { machines, profiles: [profileOf(config)] };
  const { reads, roster } = takeHistory(history, { books, isListed: true });
  return { roster, intervals: buildIntervals(reads, roster).intervals };
}

describe('accounts of simulated machines', () => {
  it.each([
    ['ordinary ones', LIFE, 401, 0.8],
    [
      'some that start again',
      { ...LIFE, restarts: ['memory-cleared', 'board-changed'] } satisfies HistoryChoice,
      402,
      0.2,
    ],
  ])(
    'take commission of what was truly sold for cash and by card, or say that they do not know: %s',
    (_, choice, seed, share) => {
      let [known, all] = [0, 0];
      const check = (history: History): void => {
        const { roster, intervals } = take(history);
        const [statement] = stateCommissions(intervals, roster);
        const { cash } = history.truthBetween(0, history.reads.length - 1);
        const sold = cash.cashSales + cash.cardSales;
        all++;
        if (statement!.gross === null) return;
        known++;
        if (statement!.floors.gross) expect(statement!.gross).toBeLessThanOrEqual(sold);
        else expect(statement!.gross).toBe(sold);
      };
      fc.assert(fc.property(arbitraryHistory(choice), check), { numRuns: 150, seed });
      expect(known / all).toBeGreaterThan(share);
    },
  );

  it('say nothing amiss of a processor that paid what was truly sold by card', () => {
    let matched = 0;
    const check = (history: History): void => {
      const { roster, intervals } = take(history);
      const last = history.reads.length - 1;
      const { cash } = history.truthBetween(0, last);
      const [from, to] = [history.reads[0]!.snapshot.at, history.reads[last]!.snapshot.at].map((at) => at.slice(0, 10));
      const gross = cash.card1Sales + cash.card2Sales;
      const { decimals } = history.config.money;
      const row = `M1,${to},${formatMinor(gross, decimals)},${from},${to}`;
      // An amount below 1 shows which mark stands before decimals: 1.000 alone could be a thousand.
      const proof = `M1,${to},${formatMinor(0, decimals)},,`;
      const content = `machine,date,gross,period_from,period_to\n${row}\n${proof}`;
      const { rows } = readDeposits({ file: 'd.csv', content }, decimalsFromRoster(roster.books.machines, null));
      const { matches } = matchDeposits(intervals, rows, roster, { completeTo: '2027-12-31' });
      const claims = matches.filter(({ state }) => state === 'differing' || state === 'missing' || state === 'extra');
      expect(
        claims.map(({ state, sales, difference, reason }) => ({ state, sales, gross, difference, reason })),
      ).toEqual([]);
      if (gross > 0 && matches.every(({ state }) => state === 'matched')) matched++;
    };
    fc.assert(
      fc.property(arbitraryHistory({ ...LIFE, machine: { ...LIFE.machine, devices: { card: true } } }), check),
      {
        numRuns: 200,
        seed: 403,
      },
    );
    expect(matched).toBeGreaterThan(60);
  });
});
