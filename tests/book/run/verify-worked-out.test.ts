import { describe, expect, it } from 'vitest';
import { verifyWorkedOut, workOutStale } from '../../../src/book/run/index.js';
import type { BookStore } from '../../../src/book/store/index.js';
import { openSqliteBook } from '../../../src/book/store/index.js';
import { Roster } from '../../../src/sheets/index.js';
import { makeFolder } from '../../io/temporary-folder.js';
import { withDatabase } from '../store/temporary-book.js';
import { dailyCaptures, rosterOf, takeNight } from './take-night.js';

const ROSTER = rosterOf('machine,asset,currency,decimals\nM1,A1,EUR,2\n');

async function makeBook(): Promise<string> {
  const path = `${makeFolder({})}/book.db`;
  const store = await openSqliteBook(path, { create: true });
  await takeNight(store, dailyCaptures([1, 2, 3, 4]), { roster: ROSTER });
  await workOutStale(store, { take: { roster: ROSTER } });
  await store.close();
  return path;
}

async function verify(path: string): Promise<string[]> {
  const store: BookStore = await openSqliteBook(path, { isReadOnly: true });
  const { machines, differences } = await verifyWorkedOut(store, ROSTER);
  await store.close();
  expect(machines).toBe(1);
  return differences.map(({ what, entry }) => `${what} ${entry}`);
}

describe('verifyWorkedOut', () => {
  it('finds everything as the captures give it, by what the office said, today or then', async () => {
    const path = await makeBook();
    expect(await verify(path)).toEqual([]);
  });

  // Each with plain SQL, all guards in place: they keep what is recorded, not what is worked out.
  it.each([
    ['what a read is matched by', "UPDATE read SET received_at = '2026-11-09T10:00:00' WHERE entry = 2", 'read 2'],
    ['why it was taken', "UPDATE read SET reason = 'service' WHERE entry = 2", 'read 2'],
    ['its bag', "UPDATE read SET bag = 'B9' WHERE entry = 1", 'read 1'],
    ["its machine's money", 'UPDATE read SET decimals = 3 WHERE entry = 1', 'read 1'],
    ['what was found of it', "UPDATE read SET verdict = 'read-again' WHERE entry = 1", 'read 1'],
    ['its place', 'UPDATE read SET position = position + 500000 WHERE entry = 1', 'read 1'],
    ['figures of a step', 'UPDATE step SET figures = zeroblob(length(figures)) WHERE entry = 2', 'step 2'],
    ['what steps have in common', 'UPDATE layout SET body = replace(body, \'"lifetime"\', \'"interval"\')', 'step 1'],
    ['findings of a step', "UPDATE step SET findings = '[]' WHERE entry = 3", 'step 3'],
    ['a step taken out', 'DELETE FROM step WHERE entry = 3', 'step 3'],
  ])('names a change of %s', async (_, sql, named) => {
    const path = await makeBook();
    await withDatabase(path, (database) => database.exec(sql));
    expect(await verify(path)).toContain(named);
  });

  it('holds nothing of machines to which more has come', async () => {
    const path = await makeBook();
    const store = await openSqliteBook(path);
    await takeNight(store, dailyCaptures([5]), { roster: ROSTER });
    expect(await verifyWorkedOut(store, new Roster())).toMatchObject({ machines: 0, stale: 1, differences: [] });
  });
});
