import { ELEMENT } from '../../dictionary/index.js';
import { measureFall, type TakenRead } from '../../interval/index.js';
import { initialisation } from '../../interval/initialisation.js';
import { bestTime, tellingNumber } from '../../model/index.js';

/**
 * Whether reads of one machine stand in an order about which nothing can be doubted, whatever other reads of it there are
 * in the same plain order before and after them: one board, clocks and times received that rise from each to the next, no
 * counter that went down or away.
 *
 * Each condition is one of two neighbours, and holds for a whole history when it holds for all of them. So in a history in
 * plain order the reads around a new one tell its place, and all other intervals stay as they are; in any other history the
 * order is a matter of all reads together.
 *
 * @param reads - usable reads, in the order they were put in
 */
export function isPlainOrder(reads: readonly TakenRead[]): boolean {
  return reads.every(({ read }) => read.clock !== null) && reads.slice(1).every((to, i) => isPlainStep(reads[i]!, to));
}

function isPlainStep(from: TakenRead, to: TakenRead): boolean {
  const isLater =
    from.read.clock! < to.read.clock! &&
    bestTime(from)! < bestTime(to)! &&
    (from.receivedAt === null || to.receivedAt === null || from.receivedAt < to.receivedAt);
  if (!isLater || !isSameBoard(from, to) || !hasCounterRisen(from, to)) return false;
  const { down, rolledOver, gone } = measureFall(from, to);
  return down === rolledOver && gone === 0;
}

/** What tells eras apart is the same, also where it is not said: what one read leaves out another may have. */
function isSameBoard(from: TakenRead, to: TakenRead): boolean {
  const [a, b] = [signatureOf(from), signatureOf(to)];
  return a.every((part, i) => part === b[i]);
}

const signatureOf = ({ read }: TakenRead): readonly (string | null)[] => [
  tellingNumber(read.text(ELEMENT.CB101)),
  tellingNumber(read.text(ELEMENT.ID101)),
  initialisation(read),
];

/** The counters of reads and resets, by which reads are put in order before their clocks. */
function hasCounterRisen(from: TakenRead, to: TakenRead): boolean {
  return [ELEMENT.EA309, ELEMENT.EA301].every((element) => {
    const before = from.read.integer(element);
    const after = to.read.integer(element);
    return before === null || after === null || before <= after;
  });
}
