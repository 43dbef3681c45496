import { Mark, Shown } from '../frame/index.js';
import type { Closing } from './settlement-line.js';

/** How a settlement was closed: where the book records it, and what to hold the book against. */
export function ClosingFacts({ closing }: { readonly closing: Closing | null }) {
  if (closing === null) {
    return (
      <>
        <dt>Closing</dt>
        <dd>
          <Mark tone="plain" sign="·" word="Not closed" />
        </dd>
      </>
    );
  }
  const { entry, recordedAt, by, size, root } = closing;
  return (
    <>
      <dt>Closing</dt>
      <dd>
        <Mark tone="good" sign="=" word={`Closed, entry ${entry}`} /> recorded{' '}
        <time dateTime={recordedAt}>{recordedAt}</time>
        {by === null ? '' : ' by '}
        {by === null ? null : <Shown text={by} />}
      </dd>
      <dt>Book root</dt>
      <dd>
        <span class="hash">{root}</span>, of {size} entries
      </dd>
    </>
  );
}
