import { type MachineNumbers, type MachineRow, tellingNumber } from '../model/index.js';

/** How a machine of the roster was found by its numbers. */
export type NumberMatch = 'asset' | 'serial';

/**
 * Which machine of a roster has which number: the first of those that share one. A number that tells nothing is nobody's; see
 * `tellingNumber`.
 */
export class NumberOwners {
  readonly #byAsset: ReadonlyMap<string, MachineRow>;
  readonly #bySerial: ReadonlyMap<string, MachineRow>;

  constructor(machines: readonly MachineRow[]) {
    this.#byAsset = firstOf(machines, ({ asset }) => asset);
    this.#bySerial = firstOf(machines, ({ serial }) => serial);
  }

  /** The machine with these numbers: by the asset number, else by the serial number. */
  find({ asset, serial }: Pick<MachineNumbers, 'asset' | 'serial'>): { machine: MachineRow; by: NumberMatch } | null {
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
  areAsIn(other: NumberOwners): boolean {
    const isAsIn = (own: ReadonlyMap<string, MachineRow>, theirs: ReadonlyMap<string, MachineRow>): boolean =>
      [...own].every(([number, { machine }]) => theirs.get(number)?.machine === machine);
    return isAsIn(this.#byAsset, other.#byAsset) && isAsIn(this.#bySerial, other.#bySerial);
  }
}

function firstOf(
  machines: readonly MachineRow[],
  numberOf: (row: MachineRow) => string | null,
): ReadonlyMap<string, MachineRow> {
  const owners = new Map<string, MachineRow>();
  for (const row of machines) {
    const number = tellingNumber(numberOf(row));
    if (number !== null && !owners.has(number)) owners.set(number, row);
  }
  return owners;
}
