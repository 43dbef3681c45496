import type { Finding } from '../findings/index.js';
import type { CountRow, LocalDate, UnusableCount } from '../model/index.js';

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
  readonly #byMachine = new Map<string, Refusal>();
  readonly #unusable: readonly UnusableCount[];
  #ofAnyMachine: Refusal | null = null;

  /**
   * @param findings - what was said about the sheet
   * @param counts - the rows that were taken from it
   * @param unusable - rows of which it is known how far they could be read
   * @param isMachine - whether a name is that of a machine there is
   */
  constructor(
    findings: readonly Finding[],
    unusable: readonly UnusableCount[],
    counts: readonly CountRow[],
    isMachine: (name: string) => boolean,
  ) {
    this.#unusable = unusable;
    for (const { machine, place, visitedAt } of unusable) {
      if (machine === null || !isMachine(machine)) this.#ofAnyMachine ??= place;
      else if (visitedAt === null && !this.#byMachine.has(machine)) this.#byMachine.set(machine, place);
    }
    const told = new Set(unusable.map(({ place }) => `${place.row} ${place.file}`));
    const used = new Map<string, Set<number>>();
    for (const { place } of counts) {
      const rows = used.get(place.file);
      if (rows === undefined) used.set(place.file, new Set([place.row]));
      else rows.add(place.row);
    }
    for (const finding of findings) {
      if (!isRefusal(finding, used) || told.has(`${finding.row} ${finding.file}`)) continue;
      const { machine } = finding;
      if (machine === undefined || !isMachine(machine)) this.#ofAnyMachine ??= finding;
      else if (!this.#byMachine.has(machine)) this.#byMachine.set(machine, finding);
    }
  }

  /** A refused row that is a bag of this machine and day; null when there is none, or several are. */
  bagOf(machine: string, date: LocalDate | null): UnusableCount | null {
    const own = this.#unusable.filter((row) => row.machine === machine && row.visitedAt?.date === date);
    return own.length === 1 ? own[0]! : null;
  }

  /** Where a refused row stands that may be a bag of this machine; null when there is none. */
  mayHold(machine: string, date: LocalDate | null): Refusal | null {
    const own = this.#unusable.find((row) => row.machine === machine && row.visitedAt?.date === date);
    return own?.place ?? this.#byMachine.get(machine) ?? this.#ofAnyMachine;
  }
}

/** Where a row stands; without a number it is the whole sheet. */
interface Refusal {
  readonly row?: number | undefined;
}

function isRefusal({ code, severity, file, row }: Finding, used: ReadonlyMap<string, ReadonlySet<number>>): boolean {
  if (WHOLE_SHEET.has(code)) return true;
  // A row that says what another one says already is left out, and nothing is lost by it.
  if (row === undefined || severity === 'note' || code === 'duplicate-row') return false;
  return file === undefined || !used.get(file)?.has(row);
}
