import { printable } from '../../findings/index.js';
import { isSystemError, reasonNotWritten } from '../../io/index.js';

/** The export could not be written. The message says why, and what became of the folder. */
export class ExportError extends Error {
  override readonly name = 'ExportError';
}

/**
 * Say why the export could not be written.
 *
 * @param isBegun - whether partitions may have been replaced already
 * @returns the error as it is when it is not the system's
 */
export function explainExport(error: unknown, folder: string, isBegun: boolean): unknown {
  if (!isSystemError(error)) return error;
  const reason = reasonNotWritten(error);
  const what = isBegun
    ? 'Some days in it are new and others as they were, each of them whole: run the same export again.'
    : 'What was in it is as it was.';
  const text = `The export to ${printable(folder, 200)} could not be written: ${reason}. ${what}`;
  return new ExportError(text, { cause: error });
}
