import type { Finding } from '../../findings/index.js';
import { LimitedFindings } from '../../read/index.js';
import type { CaptureOutcome } from '../store/index.js';
import type { Intake } from './intake.js';
import type { MadeCapture } from './make-capture.js';

/** Counts what becomes of files. */
export class IntakeTally {
  readonly #findings = new LimitedFindings();
  #taken = 0;
  #setAside = 0;
  #already = 0;
  #leftForNextTime = 0;
  #unread = 0;
  #reads = 0;
  #duplicates = 0;

  /** A file went to the book. */
  addOutcome(
    { capture, reads }: MadeCapture,
    outcome: CaptureOutcome & { readonly state: 'recorded' | 'already' },
  ): void {
    if (outcome.state === 'already') {
      this.#already++;
    } else if (capture.kind === 'set-aside') {
      this.#setAside++;
    } else {
      this.#taken++;
      this.#reads += reads.count;
      this.#duplicates += outcome.duplicates.length;
    }
  }

  /** A file is in the book from an earlier run. */
  addAlready(): void {
    this.#already++;
  }

  /** A file, or a folder, could not be read. */
  addUnread(problem: Finding): void {
    this.#unread++;
    this.#findings.push(problem);
  }

  /** A file did not stand still. */
  addLeft(problem: Finding): void {
    this.#leftForNextTime++;
    this.#findings.push(problem);
  }

  /** What it came to. */
  intake(): Intake {
    const counts = { taken: this.#taken, setAside: this.#setAside, already: this.#already };
    const rest = { leftForNextTime: this.#leftForNextTime, unread: this.#unread };
    const files = [...Object.values(counts), ...Object.values(rest)].reduce((sum, count) => sum + count, 0);
    const findings = this.#findings.list();
    return { files, ...counts, ...rest, reads: this.#reads, duplicates: this.#duplicates, findings };
  }
}
