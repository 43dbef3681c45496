import { type Finding, makeFinding, printable } from '../findings/index.js';
import type { RowProblem } from './describe-sheet.js';

const FILE_CHARACTERS = 200;
const NAMES_SHOWN = 12;

/** A problem with the row it is about. */
export interface PlacedProblem {
  readonly row: number;
  readonly machine: string | null;
  readonly problem: RowProblem;
}

/** How many rows a sheet has and which of them are used. */
export interface RowUse {
  readonly total: number;
  readonly usedRows: ReadonlySet<number>;
}

/** A file's name for a message. */
export function nameFile(file: string): string {
  return printable(file, FILE_CHARACTERS);
}

/** Names for a message, cut when there are many. */
export function listNames(names: readonly string[]): string {
  const more = names.length > NAMES_SHOWN ? `, and ${names.length - NAMES_SHOWN} more` : '';
  return (
    names
      .slice(0, NAMES_SHOWN)
      .map((name) => printable(name))
      .join(', ') + more
  );
}

/** Write a problem of a row as a finding: where, what, what was expected, and what was done with the rest. */
export function writeRowFinding(file: string, { row, machine, problem }: PlacedProblem, use: RowUse): Finding {
  const { code, says, expected, field, received, relatedRow } = problem;
  const where = `${nameFile(file)}, row ${row}${field === undefined ? '' : `, column ${printable(field)}`}`;
  const wanted = expected === undefined ? '' : `; expected ${expected}`;
  return makeFinding(code, `${where}: ${says}${wanted}. ${tellOutcome(row, problem, use)}`, {
    file,
    row,
    ...(field === undefined ? {} : { field }),
    ...(machine === null ? {} : { machine }),
    ...(expected === undefined ? {} : { expected }),
    ...(received === undefined ? {} : { received: printable(received) }),
    ...(relatedRow === undefined ? {} : { related: [{ file, row: relatedRow }] }),
  });
}

function tellOutcome(row: number, { spoils, done }: RowProblem, use: RowUse): string {
  const isUsed = use.usedRows.has(row);
  if (isUsed && spoils === 'nothing') return done ?? 'The row is used.';
  const [others, verb] = nameOthers(isUsed, use);
  if (!isUsed) return `The row is left out; ${others} ${verb} used.`;
  return `The cell counts as not stated; the rest of the row is used${use.total === 1 ? '' : `; ${others} ${verb} used`}.`;
}

/** The other rows that are used, as the subject of a sentence with its verb. */
function nameOthers(isUsed: boolean, { total, usedRows }: RowUse): [subject: string, verb: string] {
  const count = usedRows.size - (isUsed ? 1 : 0);
  if (count === 0) return ['no other row', 'is'];
  const areAll = count === total - 1;
  if (count === 1) return [areAll ? 'the other row' : '1 other row', 'is'];
  return [areAll ? `the other ${count} rows` : `${count} other rows`, 'are'];
}
