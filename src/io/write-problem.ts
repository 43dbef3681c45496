import { printable } from '../findings/index.js';

const REASONS: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk space of this user is used up',
  EFBIG: 'a file there may not be that large',
  EACCES: 'this user may not write there',
  EPERM: 'this user may not write there',
  EROFS: 'the disk is read-only',
  ENOENT: 'there is no such folder',
  ENOTDIR: 'a part of its path is no folder',
  EISDIR: 'it is a folder, not a file',
  EEXIST: 'it is a file, not a folder',
  ENOTEMPTY: 'there is something else in it',
  ENAMETOOLONG: 'its name is too long',
  EMFILE: 'too many files are open at once',
  EIO: 'the disk or network gave an error',
};

/** Why the system refused to write something, as a clause: `the disk is full`. */
export function reasonNotWritten(error: unknown): string {
  const { code = '', message } = error as NodeJS.ErrnoException;
  return REASONS[code] ?? printable(message, 200);
}
