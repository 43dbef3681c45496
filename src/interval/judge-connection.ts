import { type Finding, makeFinding, printable } from '../findings/index.js';
import { compareEras, type Era } from './eras.js';
import { isOtherMachine } from './relabelling.js';
import { placeIn, type TakenRead } from './taken-read.js';

/** Two eras that follow each other, where the reads at hand are the last of the one and the first of the other. */
export interface Seam {
  readonly before: Era;
  readonly era: Era;
}

/**
 * What keeps two consecutive reads under one name from making an interval: another machine stands there, or two eras lie
 * in each other's time, so that the order of the two is not known.
 *
 * @returns null when nothing does
 */
export function judgeConnection(from: TakenRead, to: TakenRead, seam: Seam | null): Finding | null {
  const related = [placeIn(from, null)];
  if (isOtherMachine(from, to)) {
    const [before, after] = [from, to].map(({ read }) => printable(read.machine.asset ?? '', 30));
    const message = `Another machine: asset ${before} at the earlier read, ${after} at the later. Nothing is taken from one to the other.`;
    return makeFinding('other-machine', message, { ...placeIn(to, to.read.place('ID106')), related });
  }
  if (seam === null) return null;
  const { isApart, isByReceived } = compareEras(seam.before, seam.era);
  if (isApart) return null;
  const [board, other] = [from, to].map(({ read }) => read.text('CB101') ?? read.machine.serial);
  const detail = {
    ...placeIn(to, to.read.place('ID501')),
    related,
    severity: isByReceived ? 'fault' : 'doubt',
  } as const;
  if (board !== other) {
    const message = `Reads of two boards (${printable(board ?? 'no number', 30)}, ${printable(other ?? 'no number', 30)}) come under one name, and their times do not tell which came first: two machines, a board that was put back, or a wrong clock. Nothing is taken from one to the other.`;
    return makeFinding('other-machine', message, detail);
  }
  const message =
    'The times of the reads before and after the memory was cleared do not tell which came first. Nothing is taken from one to the other.';
  return makeFinding('out-of-order', message, { ...detail, severity: 'doubt' });
}
