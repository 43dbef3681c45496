/**
 * The counters of one control board, each twice: since initialisation and since the last reset. Keys are the simulator's
 * own; what a maker writes of them, in which element and how wide, is decided where segments are written.
 */
export class CounterBank {
  readonly #lifetime = new Map<string, number>();
  readonly #interval = new Map<string, number>();

  add(key: string, by: number): void {
    this.addPast(key, by);
    this.#interval.set(key, this.interval(key) + by);
  }

  /** Count one more under `KEY.count` and an amount under `KEY.value`. */
  addPair(key: string, value: number): void {
    this.add(`${key}.count`, 1);
    this.add(`${key}.value`, value);
  }

  /** What happened before the last reset: only the lifetime counter knows. */
  addPast(key: string, by: number): void {
    this.#lifetime.set(key, this.lifetime(key) + by);
  }

  addPastPair(key: string, count: number, value: number): void {
    this.addPast(`${key}.count`, count);
    this.addPast(`${key}.value`, value);
  }

  lifetime(key: string): number {
    return this.#lifetime.get(key) ?? 0;
  }

  interval(key: string): number {
    return this.#interval.get(key) ?? 0;
  }

  /** Reset by a read. `keeps` names counters that this read does not clear. */
  clearInterval(keeps: (key: string) => boolean): void {
    for (const key of [...this.#interval.keys()]) if (!keeps(key)) this.#interval.delete(key);
  }

  /** A new board, or a memory cleared. */
  clearAll(): void {
    this.#lifetime.clear();
    this.#interval.clear();
  }

  /** Take over the counters of another board. */
  copyFrom(other: CounterBank): void {
    this.clearAll();
    for (const [key, count] of other.#lifetime) this.#lifetime.set(key, count);
    for (const [key, count] of other.#interval) this.#interval.set(key, count);
  }
}
