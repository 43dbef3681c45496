import { plural } from '../index.js';
import { InputError } from './exit-status.js';
import { withBook } from './open-book.js';
import type { Terminal } from './terminal.js';

/** Whether something could not be done because reads are kept as of another machine or time than entries say. */
export function isOfAlteredBook(error: unknown): boolean {
  return error instanceof InputError && (error.cause as { readonly kind?: unknown } | undefined)?.kind === 'altered';
}

/** Put reads back where they belong by what entries say, and say on standard error how many there were. */
export async function putBack(file: string, terminal: Terminal): Promise<void> {
  const { putMatchingBack } = await import('../book/index.js');
  const count = await withBook({ book: file }, terminal, putMatchingBack);
  if (count === 0) return;
  const reads = `${plural(count, 'read')} ${count === 1 ? 'was' : 'were'}`;
  terminal.stderr.write(
    `coilbook: another program changed the book: ${reads} kept as of another machine, time or visit than entries say. That is ` +
      'put back. Find out who worked on the file, and look again at rounds that were closed since.\n',
  );
}
