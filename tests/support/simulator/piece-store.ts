/** Coins or bills lying somewhere, by value. A count may go below zero: a driver who fills from his own purse is owed. */
export class PieceStore {
  readonly #pieces = new Map<number, number>();

  add(value: number, count = 1): void {
    this.#pieces.set(value, (this.#pieces.get(value) ?? 0) + count);
  }

  get total(): number {
    let total = 0;
    for (const [value, count] of this.#pieces) total += value * count;
    return total;
  }

  /** Value → count, ascending, without the values of which there are none. */
  get pieces(): ReadonlyMap<number, number> {
    return new Map([...this.#pieces].filter(([, count]) => count !== 0).sort(([a], [b]) => a - b));
  }

  /** Take everything out. */
  empty(): ReadonlyMap<number, number> {
    const pieces = this.pieces;
    this.#pieces.clear();
    return pieces;
  }
}

/** One tube of a coin mechanism: coins of one value, up to a capacity. */
export interface Tube {
  readonly value: number;
  readonly capacity: number;
  coins: number;
}

/** Value of all coins in tubes. */
export function valueOfTubes(tubes: readonly Tube[]): number {
  return tubes.reduce((sum, tube) => sum + tube.value * tube.coins, 0);
}
