import { type MachineNumbers, type MachineRow, tellingNumber } from '../model/index.js';

/** How a machine of the roster was found by its numbers. */
export type NumberMatch = 'asset' | 'serial';

/** A machine, and the numbers by which it is known. */
export type NumberedMachine = Pick<MachineRow, 'machine' | 'asset' | 'serial'>;

/**
 * Which machine of a roster has which number: the first of those that share one. A number that tells nothing is nobody's; see
 * `tellingNumber`.
 */
export class NumberOwners<Row extends NumberedMachine = MachineRow> {
  readonly #byAsset: ReadonlyMap<string, Row>;
  readonly #bySerial: ReadonlyMap<string, Row>;

  constructor(machines: readonly Row[]) {
    this.#byAsset = firstOf(machines, ({ asset }) => asset);
    this.#bySerial = firstOf(machines, ({ serial }) => serial);
  }

  /** The machine with these numbers: by the asset number, else by the serial number. */
  find({ asset, serial }: Pick<MachineNumbers, 'asset' | 'serial'>): { machine: Row; by: NumberMatch } | null {
    const byAsset = this.#byAsset.get(asset ?? '');
    if (byAsset !== undefined) return { machine: byAsset, by: 'asset' };
    const bySerial = this.#bySerial.get(serial ?? '');
    return bySerial === undefined ? null : { machine: bySerial, by: 'serial' };
  }

  /** Whether a machine has the number. */
  has(kind: NumberMatch, number: string | null): boolean {
    return (kind === 'asset' ? this.#byAsset : this.#bySerial).has(number ?? '');
  }

  /** Whether every number has the owner here that it has there. */
  areAsIn(other: NumberOwners<NumberedMachine>): boolean {
    const isAsIn = (own: ReadonlyMap<string, NumberedMachine>, theirs: ReadonlyMap<string, NumberedMachine>): boolean =>
      [...own].every(([number, { machine }]) => theirs.get(number)?.machine === machine);
    return isAsIn(this.#byAsset, other.#byAsset) && isAsIn(this.#bySerial, other.#bySerial);
  }
}

function firstOf<Row extends NumberedMachine>(
  machines: readonly Row[],
  numberOf: (row: Row) => string | null,
): ReadonlyMap<string, Row> {
  const owners = new Map<string, Row>();
  for (const row of machines) {
    const number = tellingNumber(numberOf(row));
    if (number !== null && !owners.has(number)) owners.set(number, row);
  }
  return owners;
}
