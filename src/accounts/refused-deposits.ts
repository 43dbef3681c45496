import { type Finding, makeFinding, printable } from '../findings/index.js';
import type { DepositRow } from '../model/index.js';
import type { SheetReading } from '../sheets/index.js';
import type { DepositMatches, DepositState } from './deposit-match.js';

/** Where a deposit that was not read could make the difference. */
const MAY_LACK: ReadonlySet<DepositState> = new Set(['missing', 'differing']);

/** What was said of rows that could not be used. A row that repeats another one takes nothing away. */
export function listRefusals({ rows, findings }: SheetReading<DepositRow>): Finding[] {
  const used = new Set(rows.map(({ place }) => place.row));
  return findings.filter(
    ({ code, severity, row }) => code !== 'duplicate-row' && severity !== 'note' && row !== undefined && !used.has(row),
  );
}

/**
 * What rows of the deposits sheet that could not be used put in doubt: card sales may be said to have no deposit only
 * because its row was refused.
 *
 * @param sheet - the sheet as `readDeposits` read it
 */
export function findRefusedDeposits(sheet: SheetReading<DepositRow>, { matches }: DepositMatches): Finding[] {
  const refused = listRefusals(sheet);
  const [first] = refused;
  if (first === undefined || !matches.some(({ state }) => MAY_LACK.has(state))) return [];
  const { size } = new Set(refused.map(({ row }) => row));
  const rows = `${size === 1 ? '1 row' : `${size} rows`} of ${printable(first.file!, 200)}`;
  const message = `${rows} could not be used: what is said to be missing or too little may be in ${size === 1 ? 'it' : 'them'}.`;
  return [
    makeFinding('deposit-unclear', message, {
      file: first.file!,
      advice: 'Correct the rows first, then compare again.',
    }),
  ];
}
