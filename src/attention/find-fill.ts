import type { PlacedRead, Step } from '../interval/index.js';
import { bestTime, type LocalDateTime } from '../model/index.js';
import type { Visit } from '../settlement/index.js';

/** How a read is known to be one at which the columns were filled. */
export type FillBasis = 'list' | 'service-read' | 'bag';

/** Which reads and visits of a machine may have been fills. */
export interface FillEvidence {
  /** The machine's usable reads in the order they happened. */
  readonly ordered: readonly PlacedRead[];
  /** The step that ends with a read. */
  readonly stepTo: ReadonlyMap<PlacedRead, Step>;
  /** Reads of the machine that must not be used for accounts. */
  readonly faulty: readonly PlacedRead[];
  /** Its visits: those of the day, and earlier ones as far as they are known. */
  readonly visits: readonly Visit[];
}

/** The last fill before the last read, and visits since of which there is no figure. */
export interface LastFill {
  /** Its place among the usable reads; -1 when no fill is known. */
  readonly position: number;
  readonly basis: FillBasis | null;
  /** When the machine was visited later without a usable capture, the last of these; null when it was not. */
  readonly unreadVisitAt: LocalDateTime | null;
}

/**
 * Find the last service visit, which is taken to have filled every column to par unless the captures list says otherwise
 * (domain rule). A read is one when the list says `filled`; else when the list calls it a service read, when it cleared
 * the counters of a machine that clears on service reads only, or when a counted bag belongs to it.
 */
export function findLastFill(evidence: FillEvidence): LastFill {
  const { ordered } = evidence;
  const bagged = new Set(evidence.visits.map(({ capture }) => capture));
  for (let position = ordered.length - 1; position >= 0; position--) {
    const basis = fillBasis(position, evidence, bagged);
    if (basis !== null) return { position, basis, unreadVisitAt: lastUnreadVisit(evidence, ordered[position]!) };
  }
  return { position: -1, basis: null, unreadVisitAt: lastUnreadVisit(evidence, null) };
}

function fillBasis(
  position: number,
  { ordered, stepTo }: FillEvidence,
  bagged: ReadonlySet<string | null>,
): FillBasis | null {
  const taken = ordered[position]!;
  const said = taken.filled;
  if (said !== null) return said ? 'list' : null;
  if (taken.reason === 'service') return 'service-read';
  if (bagged.has(taken.file)) return 'bag';
  if (taken.reason !== null || taken.profile?.resets !== 'service-read') return null;
  const next = ordered[position + 1];
  const hasCleared = next !== undefined && stepTo.get(next)?.reset === 'cleared';
  return hasCleared ? 'service-read' : null;
}

/** Bags without a usable capture, and service reads that cannot be used: the machine was filled, and nobody knows from what. */
function lastUnreadVisit(evidence: FillEvidence, fill: PlacedRead | null): LocalDateTime | null {
  const { ordered, faulty, visits } = evidence;
  const usable = new Set(ordered.map(({ file }) => file));
  const bags = visits
    .filter(({ capture, counts }) => counts.length > 0 && (capture === null || !usable.has(capture)))
    .map(({ visitedAt }) => momentOf(visitedAt));
  const services = faulty
    .filter((taken) => !usable.has(taken.file) && isFilledByList(taken))
    .map((taken) => bestTime(taken));
  const since = fill === null ? '' : (bestTime(fill) ?? '');
  const moments = [...bags, ...services].filter((moment) => moment !== null && moment > since);
  return moments.sort().at(-1) ?? null;
}

function isFilledByList(taken: PlacedRead): boolean {
  return taken.filled ?? taken.reason === 'service';
}

/** A visit known by its date alone is taken at noon, away from other days' edges. */
function momentOf(visitedAt: string | null): LocalDateTime | null {
  return visitedAt === null || visitedAt.length > 10 ? visitedAt : `${visitedAt}T12:00:00`;
}
