import { compareSeverity, type Finding, makeFinding } from '../findings/index.js';

/** So many findings of one file are kept. No file in order has as many; one made to fill the memory may have millions. */
export const MOST_FINDINGS = 10_000;

/** A list of findings that does not grow without end: what comes after the limit is counted, and the worst of it kept. */
export class LimitedFindings {
  readonly #most: number;
  readonly #kept: Finding[] = [];
  #dropped = 0;
  #worst: Finding | null = null;

  /** @param most - how many are kept */
  constructor(most: number = MOST_FINDINGS) {
    this.#most = most;
  }

  push(finding: Finding): void {
    if (this.#kept.length < this.#most) {
      this.#kept.push(finding);
      return;
    }
    this.#dropped++;
    if (this.#worst === null || compareSeverity(finding, this.#worst) < 0) this.#worst = finding;
  }

  /** The findings so far. Of those beyond the limit the worst stands last, with how many there are. */
  list(): Finding[] {
    const worst = this.#worst;
    if (worst === null) return this.#kept.slice();
    const { code, message, ...detail } = worst;
    const more = makeFinding(code, `There are ${this.#dropped} more findings; the worst of them: ${message}`, detail);
    return [...this.#kept, more];
  }
}
