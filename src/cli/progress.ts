import type { Terminal } from './terminal.js';

const FIRST_AFTER_MS = 1000;
const EVERY_MS = 200;
/** Back to the start of the line, and clear it (ECMA-48). */
const CLEAR_LINE = '\r\u001b[K';

/** Says on standard error how far it has come, once a person at a terminal has waited more than a second. */
export class Progress {
  readonly #stderr: Terminal['stderr'];
  readonly #now: () => Date;
  readonly #started: number;
  #shownAt = 0;
  #isShown = false;
  #files = 0;

  constructor({ stderr, now }: Terminal) {
    this.#stderr = stderr;
    this.#now = now;
    this.#started = now().getTime();
  }

  /** One more file is begun. */
  readonly step = (): void => {
    this.#files++;
    this.show(`${this.#files} files`);
  };

  /** It has come that far. */
  show(howFar: string): void {
    if (this.#stderr.isTTY !== true) return;
    const at = this.#now().getTime();
    if (at - this.#started < FIRST_AFTER_MS || at - this.#shownAt < EVERY_MS) return;
    this.#shownAt = at;
    this.#isShown = true;
    this.#stderr.write(`${CLEAR_LINE}${howFar} …`);
  }

  /** Take the line away, before anything else is written. */
  clear(): void {
    if (this.#isShown) this.#stderr.write(CLEAR_LINE);
    this.#isShown = false;
  }
}
