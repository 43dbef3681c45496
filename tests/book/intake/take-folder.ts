// A process of its own that takes a folder in: `take-folder BOOK FOLDER`. It writes a line when the book is open and one when
// all is done.
import { writeSync } from 'node:fs';
import { takeIn } from '../../../src/book/intake/index.js';
import { openSqliteBook } from '../../../src/book/store/index.js';
import { Roster } from '../../../src/sheets/index.js';
import { LOW_LIMITS } from './mixed-folder.js';

const [path, folder] = process.argv.slice(2) as [string, string];
const book = await openSqliteBook(path, { create: true });
writeSync(1, 'open\n');
await takeIn(book, ['.'], {
  day: '2026-11-24',
  recordedAt: () => '2026-11-24T22:15:00.000Z',
  take: { roster: new Roster() },
  workplace: { cwd: folder, stdin: process.stdin },
  limits: LOW_LIMITS,
});
writeSync(1, 'done\n');
await book.close();
