import { describeEntry } from './describe-entry.js';
import { EMPTY_ROOT } from './merkle/index.js';
import type { BookVerificationJson } from './shapes.js';
import { BookError, type BookHead, type BookStore, type Entry } from './store/index.js';
import { type BookFault, type BookFaultKind, type VerifyOptions, verifyBook } from './verify-book.js';
import { verifyMatching } from './verify-matching.js';

/**
 * Verify a book, and say what came of it so that a person knows what to do: `whole`, `doubtful` where everything fits but
 * guards against changing it are not as they were made, `broken` with the first entry that does not fit.
 *
 * @throws BookError (as a rejection) when the book can not be read for another reason than being damaged
 */
export async function judgeBook(book: BookStore, options: VerifyOptions = {}): Promise<BookVerificationJson> {
  const { head, fault, missingGuards, alteredGuards, unknownGuards } = await verifyBook(book, options);
  const isGuarded = missingGuards.length + alteredGuards.length + unknownGuards.length === 0;
  const matching = fault === null ? await verifyMatching(book) : null;
  const isMatched = matching === null || matching.differences.length === 0;
  const entry = fault === null || fault.entry === null ? null : await readEntry(book, fault.entry);
  return {
    verdict: fault !== null ? 'broken' : isGuarded && isMatched ? 'whole' : 'doubtful',
    head,
    noted: options.noted ?? null,
    fault: fault && {
      ...fault,
      entryKind: entry?.kind ?? null,
      of: entry && describeEntry(entry),
    },
    missingGuards: [...missingGuards],
    alteredGuards: [...alteredGuards],
    unknownGuards: [...unknownGuards],
    matching: matching && { ...matching, differences: [...matching.differences] },
    workedOut: null,
    advice: fault !== null ? adviseOn(fault) : !isMatched ? MATCHING_ADVICE : isGuarded ? null : GUARDS_ADVICE,
  };
}

/** The same of a book that is so damaged that it can not be opened. */
export function judgeUnopened(message: string, noted: BookHead | null): BookVerificationJson {
  const fault = { kind: 'unreadable', entry: null, message } as const;
  return {
    verdict: 'broken',
    head: { size: 0, root: Buffer.from(EMPTY_ROOT).toString('hex') },
    noted,
    fault: { ...fault, entryKind: null, of: null },
    missingGuards: [],
    alteredGuards: [],
    unknownGuards: [],
    matching: null,
    workedOut: null,
    advice: adviseOn(fault),
  };
}

/** The entry itself may be what can not be read. */
async function readEntry(book: BookStore, entry: number): Promise<Entry | null> {
  try {
    return await book.entry(entry);
  } catch (error) {
    if (error instanceof BookError && error.kind === 'corrupted') return null;
    throw error;
  }
}

const KEEP = 'Keep the book and the files beside it (-wal, -shm) as they are, and record nothing more in it.';
const GO_ON = 'Go on from the last copy that verifies with a size and root written down before.';

const GUARDS_ADVICE =
  'Only another program takes guards out or changes them. Hold the book against a size and root written down before that (--size, --root); ' +
  'without them it is not shown that nothing was made anew. Find out who worked on the file, and go on from a copy that has ' +
  'its guards.';

const MATCHING_ADVICE =
  'What was recorded is as it was; but another program changed to which machine, time or visit reads belong. `coilbook book verify ' +
  '--put-back` puts back what entries say. Then look again at rounds that were closed since, and find out who worked on the file.';

const ADVICE: Partial<Record<BookFaultKind, string>> = {
  unreadable: `${KEEP} Copy them to another disk first, since this one may be failing. ${GO_ON}`,
  surplus: `${KEEP} Trust no figure that was made from it since it last verified. ${GO_ON}`,
  'other-head':
    'Look first whether size and root are those noted of this very book, to the last digit. If they are, the book was made ' +
    `anew or another one was put in its place. ${KEEP} ${GO_ON}`,
};

function adviseOn({ kind, entry }: BookFault): string {
  const known = ADVICE[kind];
  if (known !== undefined) return known;
  return `${KEEP} ${GO_ON} Hold entry ${entry} of both against each other to see what was changed.`;
}
