import { describe, expect, it } from 'vitest';
import { limitHistory, loadHistory } from '../../../src/book/closing/limit-history.js';
import type { BookRead, BookStore, ReadToRecord } from '../../../src/book/store/index.js';
import { makeCapture, makeRead, openBook } from '../store/temporary-book.js';

const KEY = 'machine M-1';
const DAY = '2026-05-15';

/** Record one read a file, each told by its name. */
async function record(
  store: BookStore,
  name: string,
  at: string | null,
  changes: Partial<ReadToRecord> = {},
): Promise<void> {
  await store.recordCaptures([
    makeCapture(name, { reads: [makeRead(name, { receivedAt: at, clock: null, ...changes })] }),
  ]);
}

const service = { reason: 'service' } as const;

/** A service read and two scheduled ones every five days. */
async function fillYear(store: BookStore): Promise<void> {
  for (let month = 1; month <= 12; month++) {
    for (const day of ['05', '10', '15', '20', '25']) {
      const date = `2026-${String(month).padStart(2, '0')}-${day}`;
      await record(store, `s ${date}`, `${date}T10:00:00`, service);
      await record(store, `n ${date}`, `${date}T22:00:00`);
    }
  }
}

const daysOf = (reads: readonly BookRead[]): string[] => reads.map(({ at }) => at?.slice(0, 10) ?? 'undated');

describe('the part of a history that a day is settled from', () => {
  it('goes from three collections before to two after, with what has no time or a wrong one', async () => {
    const store = await openBook();
    await record(store, 'undated', null);
    await fillYear(store);
    const reads = await loadHistory(store, [KEY, 'asset A-1'], DAY);
    expect([...new Set(daysOf(reads))]).toEqual([
      'undated',
      '2026-04-25',
      '2026-05-05',
      '2026-05-10',
      '2026-05-15',
      '2026-05-20',
      '2026-05-25',
    ]);
    expect(reads).toHaveLength(12);
    // A read of the day whose clock went back to the beginning came with the others.
    const late = await openBook();
    for (const day of ['01', '05', '10', '15', '16', '20']) {
      await record(late, `s ${day}`, `2026-05-${day}T10:00:00`, service);
      if (day === '15') await record(late, 'wrong clock', '2000-01-01T00:00:00');
    }
    expect(daysOf(await loadHistory(late, [KEY], DAY))).toEqual([
      '2000-01-01',
      ...['01', '05', '10', '15', '16', '20'].map((day) => `2026-05-${day}`),
    ]);
  });

  it('is all of it where too few collections are known, however long ago', async () => {
    const store = await openBook();
    for (const at of ['2024-01-01', '2025-01-01', '2026-05-10', DAY]) await record(store, at, `${at}T10:00:00`);
    expect(await loadHistory(store, [KEY], DAY)).toHaveLength(4);
    const rare = await openBook();
    for (const at of ['2022-01-01', '2023-01-01', '2024-01-01', '2025-01-01', DAY]) {
      await record(rare, at, `${at}T10:00:00`, service);
    }
    expect(daysOf(await loadHistory(rare, [KEY], DAY))).toEqual(['2023-01-01', '2024-01-01', '2025-01-01', DAY]);
  });

  it('does not count collections that can not be used', async () => {
    const store = await openBook();
    for (const day of ['01', '03', '05', '07', '09']) {
      const verdict = day === '05' ? 'read-again' : 'sound';
      await record(store, day, `2026-05-${day}T10:00:00`, { ...service, verdict });
    }
    const reads = await store.readsOf(KEY);
    expect(daysOf(limitHistory(reads, DAY))[0]).toBe('2026-05-03');
  });
});
