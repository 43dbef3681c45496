import type { BookFactsJson } from '../../report/shapes/closing.js';
import { instantWords } from '../../report/text/closing-text.js';
import { Mark, Shown, type ShownHead } from '../frame/index.js';

/** What a sheet says of its closing. */
export interface ClosingFactsProps {
  readonly inBook: BookFactsJson | null;
  /** The book as it stood when the sheet was made. */
  readonly book: ShownHead | null;
}

/** How a settlement was closed: where the book records it, and what to hold the book against. */
export function ClosingFacts({ inBook, book }: ClosingFactsProps) {
  const closing = inBook?.closing ?? null;
  return (
    <>
      <dt>Closing</dt>
      <dd>
        {closing === null ? (
          <Mark tone="plain" sign="·" word="Not closed" />
        ) : (
          <>
            <Mark tone="good" sign="=" word={`Closed, entry ${closing.entry}`} />{' '}
            <time dateTime={closing.at}>{instantWords(closing.at)}</time>, by <Shown text={closing.by} />
          </>
        )}
      </dd>
      <dt>Book</dt>
      <dd>
        {book === null ? (
          'none'
        ) : (
          <>
            {book.size} entries, root <span class="hash">{book.root}</span>
          </>
        )}
      </dd>
    </>
  );
}
