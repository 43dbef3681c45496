import { bestTime, type LocalDateTime } from '../../model/index.js';
import { BookError, type BookRead } from '../store/index.js';
import type { Matching, ToldFile, ToldHistory } from './told-history.js';

/** What a read is matched by, and the time by which it is looked up. */
export interface MatchedRead extends Matching {
  readonly at: LocalDateTime | null;
}

/** One of them that is not what follows from entries. */
export interface MatchingDifference {
  readonly entry: number;
  readonly number: number;
  readonly what: 'machine' | 'received-at' | 'reason' | 'bag' | 'time';
  /** As it is kept, and as it follows. */
  readonly kept: string | null;
  readonly told: string | null;
}

const NAMED = [
  ['machine', 'machine'],
  ['receivedAt', 'received-at'],
  ['reason', 'reason'],
  ['bag', 'bag'],
  ['at', 'time'],
] as const;

/**
 * What a read is matched by, as it follows from what was told and what it says of itself; null where its file's entry does not
 * say what held when it came.
 *
 * @param appendedAt - the time that its reader appended
 */
export function deriveMatching(
  history: ToldHistory,
  file: ToldFile,
  row: BookRead,
  appendedAt: LocalDateTime | null,
): MatchedRead | null {
  const matching = history.match(file, row);
  if (matching === null) return null;
  const at = bestTime({ receivedAt: matching.receivedAt, read: { clock: row.clock, appendedAt } });
  return { ...matching, at };
}

/** What of a read as it is kept is not what follows; nothing where all is. */
export function compareMatching(row: BookRead, told: MatchedRead): MatchingDifference[] {
  const { entry, number } = row;
  return NAMED.filter(([key]) => row[key] !== told[key]).map(([key, what]) => ({
    entry,
    number,
    what,
    kept: row[key],
    told: told[key],
  }));
}

/**
 * A read as it is where all that it is matched by is what follows.
 *
 * @throws BookError `altered` where it is kept as another machine's or another time's: it was looked up among reads that it does
 *   not belong to, and is missing where it does
 */
export function putRight(row: BookRead, told: MatchedRead): BookRead {
  const differences = compareMatching(row, told);
  const away = differences.find(({ what }) => what === 'machine' || what === 'time');
  if (away !== undefined) throw new BookError('altered', sayAway(away));
  if (differences.length === 0) return row;
  const { receivedAt, reason, bag } = told;
  return { ...row, receivedAt, reason, bag };
}

function sayAway({ entry, number, what }: MatchingDifference): string {
  const as = what === 'machine' ? 'of another machine' : 'at another time';
  return (
    `Read ${number} of entry ${entry} is kept as ${as} than entries say: the book was changed by another program. No figure was ` +
    'made of it. `coilbook book verify` names what was changed; with `--put-back` it is put back.'
  );
}
