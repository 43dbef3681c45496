/** What stands in the way of using a book. */
export type BookErrorKind =
  | 'library-missing' // the database library is not installed, or does not run here
  | 'not-found' // there is no such file
  | 'not-a-book' // the file is something else
  | 'newer-version' // written by a later version of the program
  | 'older-version' // has to be brought up to date, but is only being read
  | 'cannot-open' // no permission, a folder, a folder that is not there
  | 'read-only' // the book, its folder or the disk refuses writing
  | 'busy' // another process held the book for too long
  | 'disk-full'
  | 'disk-failed' // reading or writing failed below the database
  | 'corrupted' // what is stored can not be what was written
  | 'altered' // what reads are matched by is not what entries say
  | 'refused'; // something recorded was to be changed or removed

/**
 * The book could not be used. The message is one or two sentences for people: what is the case, and what to do. Whatever
 * was to be recorded in the same call is not: a call is recorded whole or not at all.
 */
export class BookError extends Error {
  override readonly name = 'BookError';

  constructor(
    readonly kind: BookErrorKind,
    message: string,
    options?: ErrorOptions,
  ) {
    super(message, options);
  }
}
