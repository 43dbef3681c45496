// A process of its own that opens a book and records a capture: `open-and-record BOOK`. It writes how that went. The rights of
// root are above those of any file, so it gives them up first.
import Database from 'better-sqlite3';
import { BookError, openSqliteBook } from '../../../src/book/store/index.js';
import { numberedCapture } from './numbered-captures.js';

// What lies where only root may read is loaded before.
new Database(':memory:').close();
if (process.getuid?.() === 0) process.setuid?.(65534);

try {
  const book = await openSqliteBook(process.argv[2]!, { waitMs: 500 });
  await book.recordCaptures([numberedCapture(77)]);
  await book.close();
  console.log('recorded');
} catch (error) {
  console.log(error instanceof BookError ? `${error.kind}: ${error.message}` : String(error));
}
