import type { ToldOfFile } from '../../checks/index.js';
import { bestTime } from '../../model/index.js';
import { retellFacts, unpackFacts } from '../kept/index.js';
import type { BookRead, WorkedOutRead } from '../store/index.js';
import type { Matching } from '../told/index.js';

/** A read as it is to be kept now that it is matched otherwise: its place and all that was worked out of it has to be found anew. */
export function rematchRead(row: BookRead, matching: Matching): WorkedOutRead {
  const { entry, number, currency, decimals, verdict, facts, duplicateOf } = row;
  const appendedAt = unpackFacts(row)?.appendedAt ?? null;
  const at = bestTime({ receivedAt: matching.receivedAt, read: { clock: row.clock, appendedAt } });
  const rest = { entry, number, currency, decimals, verdict, facts, duplicateOf, at };
  return { ...rest, ...matching, era: null, position: null, rests: null };
}

/** The same of a read of which a list tells something else now. */
export function retellRead(row: BookRead, matching: Matching, told: ToldOfFile): WorkedOutRead {
  return { ...rematchRead(row, matching), facts: retellFacts(row, told) };
}

/** Whether a read is matched by something else than it was. */
export function isMatchedSo(row: Matching, { machine, receivedAt, reason, bag }: Matching): boolean {
  return row.machine === machine && row.receivedAt === receivedAt && row.reason === reason && row.bag === bag;
}
