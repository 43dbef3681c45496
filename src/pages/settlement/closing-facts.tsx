import type { ClosingJson } from '../../report/shapes/closing.js';
import { instantWords } from '../../report/text/closing-text.js';
import { Mark, Shown, type ShownHead } from '../frame/index.js';

/** What a sheet says of its closing. */
export interface ClosingFactsProps {
  readonly closing: ClosingJson | null;
  /** The book as it stood when the sheet was made. */
  readonly book: ShownHead | null;
}

/** How a settlement was closed: where the book records it, and what to hold the book against. */
export function ClosingFacts({ closing, book }: ClosingFactsProps) {
  const closed = closing?.closed ?? null;
  return (
    <>
      <dt>Closing</dt>
      <dd>
        {closed === null ? (
          <Mark tone="plain" sign="·" word="Not closed" />
        ) : (
          <>
            <Mark tone="good" sign="=" word={`Closed, entry ${closed.entry}`} />{' '}
            <time dateTime={closed.recordedAt}>{instantWords(closed.recordedAt)}</time>, by <Shown text={closed.by} />
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
