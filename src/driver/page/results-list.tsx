import type { Verdict } from '../../checks/index.js';
import { printable } from '../../findings/index.js';
import { timeWords } from '../../report/text/words.js';
import type { CaptureLine } from '../desk/messages.js';
import { VerdictSign } from './answer.js';
import { pageOf } from './page-of.js';
import { listTodoOf, VERDICT_WORDS } from './words.js';

const CHOICES: readonly (Verdict | 'all')[] = ['all', 'read-again', 'doubtful', 'sound'];

interface ResultsProps {
  readonly lines: readonly CaptureLine[];
  readonly counts: Readonly<Record<Verdict, number>>;
  readonly choice: Verdict | 'all';
  readonly wanted: number;
  readonly onLook: (id: number) => void;
  readonly onLeaf: (choice: Verdict | 'all', page: number) => void;
}

/** All captures, those to read again first, a page at a time: thousands in the document would make it slow. */
export function ResultsList({ lines, counts, choice, wanted, onLook, onLeaf }: ResultsProps) {
  const { shown, page, pages, from, total } = pageOf(lines, choice, wanted);
  return (
    <section aria-labelledby="captures">
      <h3 id="captures">Captures</h3>
      <fieldset class="filter">
        <legend>Show</legend>
        {CHOICES.map((each) => (
          <button key={each} type="button" aria-pressed={each === choice} onClick={() => onLeaf(each, 0)}>
            {each === 'all' ? `All (${lines.length})` : `${VERDICT_WORDS[each]} (${counts[each]})`}
          </button>
        ))}
      </fieldset>
      {total === 0 ? <p>None.</p> : null}
      <ol class="captures" start={from + 1}>
        {shown.map((line) => (
          <li key={line.id}>
            <button
              type="button"
              class={`capture ${line.verdict}`}
              id={`capture-${line.id}`}
              onClick={() => onLook(line.id)}
            >
              <VerdictSign verdict={line.verdict} size={28} />
              <span>
                <strong>
                  {VERDICT_WORDS[line.verdict]}: {printable(line.machine ?? 'machine not known', 60)}
                </strong>
                <span class="what">{listTodoOf(line.headline)}</span>
                <span class="place">
                  {printable(line.file, 200)}, {timeWords(line.clock)}
                </span>
              </span>
            </button>
          </li>
        ))}
      </ol>
      {pages < 2 ? null : (
        <nav class="paging" aria-label="Pages of captures">
          <button type="button" disabled={page === 0} onClick={() => onLeaf(choice, page - 1)}>
            Before
          </button>
          <span>
            {from + 1} to {from + shown.length} of {total}
          </span>
          <button type="button" disabled={page === pages - 1} onClick={() => onLeaf(choice, page + 1)}>
            Next
          </button>
        </nav>
      )}
    </section>
  );
}
