/** Numbers that look random and are the same on every machine and every run (the mulberry32 generator). */
export class SeededRandom {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** A whole number from 0 up to `below`, `below` left out. */
  nat(below: number): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(this.#state ^ (this.#state >>> 15), this.#state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) % below;
  }

  pick<T>(values: readonly T[]): T {
    return values[this.nat(values.length)]!;
  }
}
