import { ELEMENT, SEGMENT, type SegmentId } from '../dictionary/index.js';
import type { Profile } from '../profile/index.js';
import type { Read } from '../read/index.js';

/** Counters of a column, of which a read shows both: columns that have them and columns that do not. */
const COLUMN_SEGMENTS = ['PA2', 'PA3', 'PA4'] as const;
/** What a maker keeps even at zero if he keeps anything: left out only by one who leaves out PA2 as well. */
const MAIN_SEGMENTS: ReadonlySet<string> = new Set(['VA1', 'CA2', 'CA3', 'CA4', 'DA2', 'DB2', 'PA2']);

type Evidence = 'left-out' | 'written' | null;

/**
 * Whether a machine leaves out segments whose values are zero (manual L0118P-SP, p. 62), as one read of it shows: some
 * columns have a counter segment, others have none, and not one shows nothing but zeros.
 *
 * A profile that says so decides. Where the read shows nothing either way the answer is no: absent is not zero.
 */
export class ZeroSegments {
  readonly #read: Read;
  readonly #stated: boolean | undefined;
  readonly #seen = new Map<string, Evidence>();

  constructor(read: Read, profile: Profile | null) {
    this.#read = read;
    this.#stated = profile?.zeroSegmentsLeftOut;
  }

  /** Whether the segment, where it is absent, stands for zeros: as the same segment shows elsewhere, else as others do. */
  leavesOut(segment: string): boolean {
    if (this.#stated !== undefined) return this.#stated;
    const own = this.#evidence(segment);
    if (own !== null) return own === 'left-out';
    if (MAIN_SEGMENTS.has(segment)) return this.#evidence('PA2') === 'left-out';
    return COLUMN_SEGMENTS.some((id) => this.#evidence(id) === 'left-out');
  }

  /**
   * What it says that a segment is absent where other columns have it and the machine leaves it out at zero, or where a
   * profile says that it does: that nothing was ever counted, or, on a machine that keeps no lifetime counters, nothing
   * since the last reset.
   *
   * @returns null when the absence says nothing
   */
  standsFor(segment: string): 'never' | 'not-since-reset' | null {
    const isLeftOut = this.#stated ?? this.#evidence(segment) === 'left-out';
    if (!isLeftOut) return null;
    const keepsLifetime = this.#read.columns.some((column) => (column.number(ELEMENT.PA201) ?? 0) > 0);
    return keepsLifetime ? 'never' : 'not-since-reset';
  }

  #evidence(segment: string): Evidence {
    const known = this.#seen.get(segment);
    if (known !== undefined) return known;
    const id = COLUMN_SEGMENTS.find((candidate) => candidate === segment);
    const evidence = id === undefined ? null : judgeColumns(this.#read, id);
    this.#seen.set(segment, evidence);
    return evidence;
  }
}

function judgeColumns(read: Read, id: SegmentId): Evidence {
  const { index } = SEGMENT[id];
  let withCounters = 0;
  let without = 0;
  for (const column of read.columns) {
    const line = column.line(index);
    if (line < 0) without++;
    else if (isAllZero(read, line)) return 'written';
    else withCounters++;
  }
  return withCounters > 0 && without > 0 ? 'left-out' : null;
}

function isAllZero({ block }: Read, line: number): boolean {
  for (let position = block.elementCount(line); position > 0; position--) {
    if (block.text(line, position) !== '' && block.number(line, position) !== 0) return false;
  }
  return true;
}
