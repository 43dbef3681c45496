import { describe, expect, it } from 'vitest';
import { closeRounds, lookBack, recordAdjustments, settleBook } from '../../../src/book/closing/index.js';
import { makeCount } from '../../settlement/scenario.js';
import { openBook } from '../store/temporary-book.js';
import { ask, KIM, rosterOf, takeIn } from './fill-book.js';

const dayAt = (i: number): string => `2026-11-${String(10 + i).padStart(2, '0')}`;

/** Visits of M1 on days in a row, 1.00 EUR in each bag but what differs; all are closed but the last. */
async function playRounds(differences: readonly number[]) {
  const store = await openBook();
  await takeIn(store, 'begin.dex', { at: `${dayAt(0)}T10:00`, reason: 'service' });
  const counted = differences.map((difference, i) =>
    makeCount('M1', `${dayAt(i + 1)}T10:00`, {
      bag: `B${i}`,
      driver: 'Robin Sample',
      coins: 100 + difference,
      bills: 0,
    }),
  );
  for (const [i, row] of counted.entries()) {
    const day = dayAt(i + 1);
    await takeIn(store, `${day}.dex`, { at: `${day}T10:00`, reason: 'service', box: 100 * (i + 1), sold: i + 1 });
    await closeRounds(store, ask([row], { day }), KIM, { isClosing: i < differences.length - 1 });
  }
  const today = dayAt(differences.length);
  const look = async () => {
    const { rounds } = await settleBook(store, ask(null, { day: today }));
    return lookBack(
      store,
      today,
      rounds.map(({ settlement }) => settlement),
    );
  };
  return { store, look, counted };
}

describe('looking back on the bags of a machine and a driver', () => {
  it('names both where all that differ are short, the open round of the day among them', async () => {
    const { look } = await playRounds([-20, -20, 0, -30, -20, -20, -20]);
    expect(await look()).toMatchObject([
      { of: 'machine', name: 'M1', differing: 6, overShort: -130, odds: 32, lookedAt: 1 },
      { of: 'driver', name: 'Robin Sample', differing: 6, overShort: -130, odds: 32 },
    ]);
  });

  it('goes by how rounds stand: a correction that turns one is counted', async () => {
    const { store, look, counted } = await playRounds([-20, -20, -30, -20, -20, -20]);
    expect(await look()).toHaveLength(2);
    const right = { ...counted[1]!, coins: 150 };
    await closeRounds(
      store,
      ask([right], { day: dayAt(2) }),
      { ...KIM, reason: 'counted again' },
      { isClosing: false },
    );
    await recordAdjustments(store, { recordedAt: () => KIM.recordedAt, roster: rosterOf() });
    expect(await look()).toEqual([]);
  });

  it('says nothing of few bags', async () => {
    const { look } = await playRounds([-20, -20, -20, -20, -20]);
    expect(await look()).toEqual([]);
  });
});
