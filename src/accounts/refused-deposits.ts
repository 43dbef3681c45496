import { type Finding, makeFinding, printable } from '../findings/index.js';
import type { DepositRow } from '../model/index.js';
import type { SheetReading } from '../sheets/index.js';
import type { DepositMatches, DepositState } from './deposit-match.js';

/** Where a deposit that was not read could make the difference. */
const MAY_LACK: ReadonlySet<DepositState> = new Set(['missing', 'differing']);

/**
 * What rows of the deposits sheet that could not be used put in doubt: card sales may be said to have no deposit only
 * because its row was refused. A row that repeats another one takes nothing away.
 *
 * @param sheet - the sheet as `readDeposits` read it
 */
export function findRefusedDeposits(
  { rows, findings }: SheetReading<DepositRow>,
  { matches }: DepositMatches,
): Finding[] {
  const used = new Set(rows.map(({ place }) => place.row));
  const refused = findings.filter(
    ({ code, severity, row }) => code !== 'duplicate-row' && severity !== 'note' && row !== undefined && !used.has(row),
  );
  const count = new Set(refused.map(({ row }) => row)).size;
  const [first] = refused;
  if (first === undefined || !matches.some(({ state }) => MAY_LACK.has(state))) return [];
  const which = count === 1 ? '1 row' : `${count} rows`;
  const message = `${which} of ${printable(first.file ?? 'the sheet', 200)} could not be used: what is said to be missing or too little may be in ${count === 1 ? 'it' : 'them'}.`;
  const advice = 'Correct the rows first, then compare again.';
  return [
    makeFinding('deposit-unclear', message, { ...(first.file === undefined ? {} : { file: first.file }), advice }),
  ];
}
