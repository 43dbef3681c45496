import type { ToldOfFile } from '../../checks/index.js';
import type { LocalDateTime } from '../../model/index.js';
import { fromToldRow, type LateRow } from './told-shapes.js';

/** Of two copies the one received first stands for both, one of which it is known before one of which it is not. */
export function isEarlier(one: LocalDateTime | null, other: LocalDateTime | null): boolean {
  return one !== null && (other === null || one < other);
}

/**
 * What is told of a read in the end: by the list of the night that it came in, then by all that came later, in order. A later
 * row takes the place of an earlier one whole; but where an earlier copy of the file is known, time and visit are that one's.
 *
 * @param isLast - whether it is the last read of its file, the one that copies are known by
 */
export function foldTold(first: ToldOfFile, later: readonly LateRow[], isLast: boolean): ToldOfFile {
  let told = first;
  let copiedAt: LocalDateTime | null = null;
  for (const row of later) {
    const { receivedAt, reason, bag, filled, ...rest } = fromToldRow(row);
    const visit = { receivedAt, reason, bag };
    if (row.isCopy === true) {
      if (!isLast) continue;
      copiedAt = receivedAt;
      told = { ...told, ...visit, filled: filled ?? told.filled };
    } else if (isLast && isEarlier(copiedAt, receivedAt)) {
      told = { ...told, ...rest };
    } else {
      told = { ...rest, ...visit, filled };
    }
  }
  return told;
}
