import { type Finding, makeFinding, printable } from '../findings/index.js';

const LONGEST_NAME = 200;

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  EACCES: 'there is no permission to read it',
  EPERM: 'there is no permission to read it',
  EISDIR: 'it is a folder, not a file',
  ENOTDIR: 'a part of its path is no folder',
  ELOOP: 'its links lead in a circle',
  EMFILE: 'too many files are open at once',
  EIO: 'the disk or network gave an error',
  ENAMETOOLONG: 'its name is too long',
  ERR_INVALID_ARG_VALUE: 'its name is no name of a file',
};

/**
 * Say why a file or folder could not be read, in words; other files go on.
 *
 * @throws the error itself when it is not the system's but a defect
 */
export function sayUnreadable(file: string, error: unknown): Finding {
  if (!isSystemError(error)) throw error;
  const { code, message } = error as NodeJS.ErrnoException;
  const reason = REASONS[code ?? ''] ?? printable(message, LONGEST_NAME);
  return sayNotRead(file, reason);
}

/** Say that a file was not read, and why. */
export function sayNotRead(file: string, reason: string): Finding {
  return makeFinding('unreadable-file', `${printable(file, LONGEST_NAME)} could not be read: ${reason}.`, {
    file,
    advice: 'Check the name and that you may read it; everything else was read.',
  });
}

/** Whether an error is the outside world's (a file, the network), and no defect of this program. */
export function isSystemError(error: unknown): boolean {
  return error instanceof Error && typeof (error as NodeJS.ErrnoException).code === 'string';
}
