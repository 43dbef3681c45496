import type { Finding } from '../index.js';

/** Exit statuses; those from 64 on as in the BSD's sysexits. */
export const EXIT = { ok: 0, doubts: 1, faults: 2, usage: 64, input: 66, defect: 70 } as const;

/** Wrong use of the program: one clear line for the user, status 64. */
export class UsageError extends Error {}

/** Something that the program needs can not be used: its message says what is the case and what to do, status 66. */
export class InputError extends Error {}

/** Keeps the worst of what was found, for the exit status. */
export class StatusKeeper {
  #worst: number = EXIT.ok;
  readonly #isStrict: boolean;

  /** @param isStrict - a doubt counts as a fault */
  constructor(isStrict: boolean) {
    this.#isStrict = isStrict;
  }

  add(findings: readonly Finding[]): void {
    for (const finding of findings) this.raise(this.#statusOf(finding));
  }

  raise(status: number): void {
    this.#worst = Math.max(this.#worst, status);
  }

  get status(): number {
    return this.#worst;
  }

  #statusOf({ code, severity }: Finding): number {
    if (code === 'check-crashed') return EXIT.defect;
    if (code === 'unreadable-file' || code === 'sheet-unreadable') return EXIT.input;
    if (severity === 'note') return EXIT.ok;
    return severity === 'fault' || this.#isStrict ? EXIT.faults : EXIT.doubts;
  }
}
