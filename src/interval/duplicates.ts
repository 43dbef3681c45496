import { SEGMENT } from '../dictionary/index.js';
import type { Read } from '../read/index.js';
import { LINE_KIND } from '../segments/index.js';
import type { TakenRead } from './taken-read.js';

const ENVELOPE: ReadonlySet<number> = new Set(
  [SEGMENT.ST, SEGMENT.SE, SEGMENT.G85, SEGMENT.DXS, SEGMENT.DXE].map((segment) => segment.index),
);

/** Reads that are one read, however often it arrived: the one that is kept, and the others. */
export interface SameRead {
  readonly kept: TakenRead;
  readonly duplicates: readonly TakenRead[];
}

/**
 * Set duplicates aside. Two reads with the same content are one read: same segments, whatever their line endings, padding,
 * envelope or file. A usable copy is kept before one with faults, an earlier received one before a later. Reads that the
 * office says are of different machines stay apart, whatever they hold.
 */
export function mergeDuplicates(reads: readonly TakenRead[]): SameRead[] {
  const marks = reads.map(({ read }) => markOf(read));
  const isSeen = new Set<string>();
  const isShared = new Set<string>();
  for (const mark of marks) (isSeen.has(mark) ? isShared : isSeen).add(mark);
  const groups = new Map<string, TakenRead[]>();
  for (const [place, taken] of reads.entries()) {
    const mark = marks[place]!;
    // The whole content is compared only where it can be the same: making a text of it takes most of the time.
    const key = isShared.has(mark) ? `${mark}\n${contentKey(taken.read)}` : mark;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [taken]);
    else group.push(taken);
  }
  return [...groups.values()].flatMap(separateMachines).map((group) => {
    const [kept, ...duplicates] = group.length === 1 ? group : [...group].sort(byUse);
    return { kept: kept!, duplicates };
  });
}

/** A copy of which nobody says whose it is goes with the first machine that has the same content. */
function separateMachines(group: readonly TakenRead[]): (readonly TakenRead[])[] {
  const names = new Set(group.flatMap(({ machine }) => machine?.machine ?? []));
  if (names.size < 2) return [group];
  const [first] = names;
  return [...names].map((name) => group.filter(({ machine }) => (machine?.machine ?? first) === name));
}

/** The text of a read's segments without envelope, line endings and padding: equal for equal reads only. */
export function contentKey(read: Read): string {
  const { block, range } = read;
  const lines: string[] = [];
  for (let line = range.from; line < range.to; line++) {
    if (isContent(block.kind(line))) lines.push(block.content(line));
  }
  return lines.join('\n');
}

/** What reads with the same content have in common, and others seldom: no line feed is in it. */
function markOf(read: Read): string {
  const { block, range } = read;
  let lines = 0;
  let bytes = 0;
  for (let line = range.from; line < range.to; line++) {
    if (!isContent(block.kind(line))) continue;
    lines++;
    bytes += block.contentEnd(line) - block.start(line);
  }
  return `${lines} ${bytes} ${MARKS.map((element) => read.text(element) ?? '').join('*')}`;
}

/** The machine's clock, how often it was read, and what it has sold: what goes on from read to read. */
const MARKS = ['ID501', 'ID502', 'EA301', 'VA101', 'VA102', 'CA305'] as const;

/** Whether a line of this kind tells one read from another: a segment, and none of the envelope. */
export function isContent(kind: number): boolean {
  return kind >= LINE_KIND.unknownSegment && !ENVELOPE.has(kind);
}

function byUse(a: TakenRead, b: TakenRead): number {
  const faults = Math.sign(a.faults.length) - Math.sign(b.faults.length);
  if (faults !== 0) return faults;
  if ((a.machine === null) !== (b.machine === null)) return a.machine === null ? 1 : -1;
  // A copy whose arrival is known stands for the read before one that only lies in the folder.
  const received = a.receivedAt ?? '9';
  const other = b.receivedAt ?? '9';
  return received < other ? -1 : received > other ? 1 : 0;
}
