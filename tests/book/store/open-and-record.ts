// A process of its own that opens a book and records a capture: `open-and-record BOOK`. It writes how that went.
import { BookError, openSqliteBook } from '../../../src/book/store/index.js';
import { numberedCapture } from './numbered-captures.js';

try {
  const book = await openSqliteBook(process.argv[2]!, { waitMs: 500 });
  await book.recordCaptures([numberedCapture(77)]);
  await book.close();
  console.log('recorded');
} catch (error) {
  console.log(error instanceof BookError ? `${error.kind}: ${error.message}` : String(error));
}
