import { printable } from '../../findings/index.js';
import { isSystemError } from '../../io/index.js';

/** The export could not be written. The message says why, and what became of the folder. */
export class ExportError extends Error {
  override readonly name = 'ExportError';
}

const REASONS: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk space of this user is used up',
  EACCES: 'this user may not write there',
  EPERM: 'this user may not write there',
  EROFS: 'the disk is read-only',
  ENOTDIR: 'a part of its path is no folder',
  EEXIST: 'it is a file, not a folder',
  ENAMETOOLONG: 'its name is too long',
  EIO: 'the disk or network gave an error',
};

/**
 * Say why the export could not be written.
 *
 * @param isBegun - whether partitions may have been replaced already
 * @returns the error as it is when it is not the system's
 */
export function explainExport(error: unknown, folder: string, isBegun: boolean): unknown {
  if (!isSystemError(error)) return error;
  const { code, message } = error as NodeJS.ErrnoException;
  const reason = REASONS[code!] ?? printable(message, 200);
  const what = isBegun
    ? 'Some days in it are new and others as they were, each of them whole: run the same export again.'
    : 'What was in it is as it was.';
  const text = `The export to ${printable(folder, 200)} could not be written: ${reason}. ${what}`;
  return new ExportError(text, { cause: error });
}
