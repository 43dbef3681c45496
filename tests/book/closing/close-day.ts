// A process of its own that closes a day of machine M1 in a book: `close-day BOOK DAY COINS BY [hold]`. It writes what it
// recorded. With `hold` it stands still in the middle of the transaction, when the first of the entries are added, saying so.
import { writeSync } from 'node:fs';
import { closeRounds } from '../../../src/book/closing/index.js';
import { type BookStore, type EntryToRecord, openSqliteBook } from '../../../src/book/store/index.js';
import { decimalsFromRoster, Roster } from '../../../src/sheets/index.js';
import { M1, makeCount } from '../../settlement/scenario.js';

const [path, day, coins, by, hold] = process.argv.slice(2) as [string, string, string, string, string?];

/** The last of the entries stands still when it is looked at. */
function standStill(entries: readonly EntryToRecord[]): EntryToRecord[] {
  const last = entries.at(-1)!;
  const held = {
    ...last,
    get body(): EntryToRecord['body'] {
      writeSync(1, 'in the middle\n');
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0);
      return last.body;
    },
  };
  return [...entries.slice(0, -1), held];
}

const book = await openSqliteBook(path);
const store: BookStore =
  hold === undefined
    ? book
    : new Proxy(book, {
        get(target, name) {
          if (name === 'recordEntries')
            return (entries: readonly EntryToRecord[], ifSize?: number) =>
              target.recordEntries(standStill(entries), ifSize);
          const value = Reflect.get(target, name) as unknown;
          return typeof value === 'function' ? value.bind(target) : value;
        },
      });
const roster = new Roster({ machines: [M1] });
const rows = [makeCount('M1', `${day}T10:00`, { bag: `B${day}`, coins: Number(coins), bills: 1000 })];
const sheet = { rows, findings: [], money: decimalsFromRoster([M1], null) };
const recorded = await closeRounds(
  store,
  { day, roster, sheet },
  { by, recordedAt: new Date().toISOString(), reason: null },
);
writeSync(1, `${JSON.stringify(recorded)}\n`);
await book.close();
