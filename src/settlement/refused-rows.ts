import type { Finding } from '../findings/index.js';
import type { CountRow } from '../model/index.js';

/** Refusals of a whole sheet. */
const WHOLE_SHEET: ReadonlySet<string> = new Set([
  'sheet-unreadable',
  'sheet-column-missing',
  'sheet-column-repeated',
  'unreadable-file',
]);

/**
 * Rows of the count sheet that were refused: a machine whose row was is not claimed to be uncounted. A row that does not
 * name a known machine may be any machine's.
 */
export class RefusedRows {
  readonly #byMachine = new Map<string, Finding>();
  #ofAnyMachine: Finding | null = null;

  /**
   * @param findings - what was said about the sheet
   * @param counts - the rows that were taken from it
   * @param isMachine - whether a name is that of a machine there is
   */
  constructor(findings: readonly Finding[], counts: readonly CountRow[], isMachine: (name: string) => boolean) {
    const used = new Map<string, Set<number>>();
    for (const { place } of counts) {
      const rows = used.get(place.file);
      if (rows === undefined) used.set(place.file, new Set([place.row]));
      else rows.add(place.row);
    }
    for (const finding of findings) {
      if (!isRefusal(finding, used)) continue;
      const { machine } = finding;
      if (machine === undefined || !isMachine(machine)) this.#ofAnyMachine ??= finding;
      else if (!this.#byMachine.has(machine)) this.#byMachine.set(machine, finding);
    }
  }

  /** What was said of a refused row that may be a bag of this machine; null when there is none. */
  mayHold(machine: string): Finding | null {
    return this.#byMachine.get(machine) ?? this.#ofAnyMachine;
  }
}

function isRefusal({ code, severity, file, row }: Finding, used: ReadonlyMap<string, ReadonlySet<number>>): boolean {
  if (WHOLE_SHEET.has(code)) return true;
  // A row that says what another one says already is left out, and nothing is lost by it.
  if (row === undefined || severity === 'note' || code === 'duplicate-row') return false;
  return file === undefined || !used.get(file)?.has(row);
}
