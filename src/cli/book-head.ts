import type { BookHead } from '../book/index.js';
import { hangText, writeJson } from '../index.js';
import { bookHeadShape } from './book-option-shapes.js';
import { EXIT } from './exit-status.js';
import { withBook } from './open-book.js';
import { readOptions } from './option-shapes.js';
import { printLines } from './print-lines.js';
import type { Terminal } from './terminal.js';

/** `book head`: how many entries there are, and the root over them, to be written down elsewhere. */
export async function runBookHead(raw: Record<string, unknown>, terminal: Terminal): Promise<number> {
  const options = readOptions(bookHeadShape, raw);
  return withBook({ book: options.book, isReadOnly: true }, terminal, async (book) => {
    const head = await book.head();
    await printLines(options.json ? [writeJson(head)] : layHead(head), terminal);
    return EXIT.ok;
  });
}

const WHY =
  'Write both down, with the date, where nobody who can write to the book can change them: only against them a later check ' +
  'shows that nothing was changed, taken out or made anew since. Both, since a proof that the book has grown out of an ' +
  'earlier one binds the root but not the size alone.';

function layHead({ size, root }: BookHead): string[] {
  return [`size  ${size}`, `root  ${root}`, '', ...hangText('', WHY)];
}
