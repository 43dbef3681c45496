import { printable } from '../findings/index.js';
import type { PlacedRead } from '../interval/index.js';
import { type MachineRow, tellingNumber } from '../model/index.js';
import type { Read } from '../read/index.js';
import type { Roster } from '../sheets/index.js';
import { isNearNumber } from './near-number.js';

/** What is known of a machine of the roster besides its numbers. */
export interface MachineTraits {
  readonly row: MachineRow;
  /** Of the boards in its captures. */
  readonly boards: ReadonlySet<string>;
  /** Of its last capture, else of its plan; empty where neither is there. */
  readonly columns: ReadonlySet<string>;
}

/** What a capture of a machine that is not on the roster has in common with one that is. */
export interface Likeness {
  /** The number that the roster nearly has, as `asset A101`; null when none is near. */
  readonly nearNumber: string | null;
  readonly isSameBoard: boolean;
  readonly areSameColumns: boolean;
}

/**
 * What is known of a machine by its plan and its usable captures.
 *
 * @param latest - the contents of the last of them; null where they are not at hand
 */
export function traitsOf(
  row: MachineRow,
  roster: Roster,
  own: readonly PlacedRead[],
  latest: Read | null,
): MachineTraits {
  const boards = own.map(({ read }) => tellingNumber(read.machine.board)).filter((board) => board !== null);
  const last = latest?.columns.map(({ id }) => id) ?? [];
  const columns = last.length > 0 ? last : roster.plan(row.machine).map(({ column }) => column);
  return { row, boards: new Set(boards), columns: new Set(columns) };
}

/** What a read has in common with a machine whose number it does not give; null when nothing. */
export function likenessOf(read: Read, { row, boards, columns }: MachineTraits): Likeness | null {
  const board = tellingNumber(read.machine.board);
  const own = new Set(read.columns.map(({ id }) => id));
  const likeness: Likeness = {
    nearNumber: findNearNumber(read, row),
    isSameBoard: board !== null && boards.has(board),
    areSameColumns: own.size > 0 && own.size === columns.size && [...own].every((id) => columns.has(id)),
  };
  const { nearNumber, isSameBoard, areSameColumns } = likeness;
  return nearNumber !== null || isSameBoard || areSameColumns ? likeness : null;
}

function findNearNumber({ machine: { asset, serial } }: Read, row: MachineRow): string | null {
  if ([asset, serial].some((number) => isNearNumber(number, row.asset))) return `asset ${row.asset}`;
  return [asset, serial].some((number) => isNearNumber(number, row.serial)) ? `serial ${row.serial}` : null;
}

/** What speaks for a machine, in words that can stand after "it": `gives nearly its asset A101`. */
export function tellLikeness({ nearNumber, isSameBoard, areSameColumns }: Likeness): string[] {
  return [
    ...(nearNumber === null ? [] : [`gives nearly the number on the roster (${printable(nearNumber, 40)})`]),
    ...(isSameBoard ? ['has the same board'] : []),
    ...(areSameColumns ? ['has the same columns'] : []),
  ];
}
