import { ELEMENT, type ElementName } from '../dictionary/index.js';
import { tellingNumber } from '../model/index.js';
import type { Read } from '../read/index.js';
import { initialisation } from './initialisation.js';
import { type Fall, isRise, measureFall } from './lifetime-fall.js';
import { judgeReadsBetween } from './reads-between.js';
import { judgeResetByCounters } from './resets.js';
import type { TakenRead } from './taken-read.js';

/** A number by which a machine names itself, set anew between two reads of one machine. */
export interface Relabelling {
  readonly element: 'ID101' | 'ID106';
  readonly before: string;
  readonly after: string;
}

/**
 * What was set anew on a machine that is the same: its asset number, or the machine number that some makers let the operator
 * choose (Coges Engine MIFARE 2.5 manual, p. 99).
 *
 * @param fall - how the counters of the two stand to each other, where that was measured already
 */
export function findRelabellings(from: TakenRead, to: TakenRead, fall?: Fall): Relabelling[] {
  const asset = changeOf('ID106', from.read, to.read);
  const serial = changeOf('ID101', from.read, to.read);
  return [
    ...(asset !== null && isSameHardware(from, to) ? [asset] : []),
    ...(serial !== null && isSerialSetAnew(from, to, fall) ? [serial] : []),
  ];
}

/**
 * Another machine: the asset numbers differ, and nothing shows that only the number was changed. Nothing of one may be
 * taken from the other.
 */
export function isOtherMachine(from: TakenRead, to: TakenRead): boolean {
  return changeOf('ID106', from.read, to.read) !== null && !isSameHardware(from, to);
}

/**
 * Whether a machine number (ID101) that changed is an operator's setting and no other board: asset, columns, board and date
 * of initialisation are the same as far as both reads say them, every lifetime counter went on, and what the counters rose
 * by is borne out: it fits the interval counters, or the board says that it is the same and the rise is plausible.
 */
export function isSerialSetAnew(from: TakenRead, to: TakenRead, fall: Fall = measureFall(from, to)): boolean {
  if (changeOf('ID101', from.read, to.read) === null || !isRise(fall) || fall.gone > 0) return false;
  const board = compareNumbers(from.read.text(ELEMENT.CB101), to.read.text(ELEMENT.CB101));
  const asset = compareNumbers(from.read.machine.asset, to.read.machine.asset);
  const date = compareNumbers(initialisation(from.read), initialisation(to.read));
  if ([board, asset, date].includes('different') || !(board === 'same' || asset === 'same')) return false;
  if (!hasSameColumns(from.read, to.read)) return false;
  const reset = judgeResetByCounters(from, to);
  if (reset === 'cleared' || reset === 'kept') return true;
  // Less than both speaks for a board that counted elsewhere, unless others did read the machine in between.
  if (board !== 'same' || (reset === 'unseen' && judgeReadsBetween(from, to) !== 'some')) return false;
  return isPlausibleRise(from.read, to.read);
}

/** How far vends may rise from one read to the next, by their size and at the least (common practice). */
const LARGEST_STEP = 0.1;
const SMALL_STEP = 200;

/** Whether no column, nor the machine, sold more than one that goes on from where it stood does from read to read. */
function isPlausibleRise(earlier: Read, later: Read): boolean {
  const isSmall = (before: number | null, after: number | null): boolean =>
    before === null || after === null || after - before <= Math.max(SMALL_STEP, before * LARGEST_STEP);
  return (
    isSmall(earlier.integer(ELEMENT.VA102), later.integer(ELEMENT.VA102)) &&
    earlier.columns.every((column) =>
      isSmall(column.number(ELEMENT.PA201), later.column(column.id)?.number(ELEMENT.PA201) ?? null),
    )
  );
}

function hasSameColumns(earlier: Read, later: Read): boolean {
  return (
    earlier.columns.length === later.columns.length && earlier.columns.every(({ id }) => later.column(id) !== null)
  );
}

function changeOf(element: 'ID101' | 'ID106', earlier: Read, later: Read): Relabelling | null {
  const [before, after] = [numberOf(element, earlier), numberOf(element, later)];
  return before === null || after === null || before === after ? null : { element, before, after };
}

const numberOf = (element: ElementName, read: Read): string | null => tellingNumber(read.text(ELEMENT[element]));

function compareNumbers(before: string | null, after: string | null): 'same' | 'different' | 'not-known' {
  const [one, other] = [tellingNumber(before), tellingNumber(after)];
  if (one === null || other === null) return 'not-known';
  return one === other ? 'same' : 'different';
}

/** Board and serial number are the same; where only one of them is given, the counters must go on as well. */
function isSameHardware(from: TakenRead, to: TakenRead): boolean {
  const found = (['CB101', 'ID101'] as const)
    .map((element) => compareNumbers(numberOf(element, from.read), numberOf(element, to.read)))
    .filter((one) => one !== 'not-known');
  if (found.length === 0 || found.includes('different')) return false;
  return found.length === 2 || isRise(measureFall(from, to));
}
