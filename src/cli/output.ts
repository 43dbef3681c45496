import type { Writable } from 'node:stream';
import { reasonNotWritten } from '../io/index.js';
import { InputError } from './exit-status.js';

/** The reader of the output has gone, as `head` does: there is nobody left to write for. */
export class OutputClosed extends Error {}

/** Standard output took no more. What the program recorded before stays recorded. */
export class OutputFailed extends InputError {
  constructor(override readonly cause: NodeJS.ErrnoException) {
    super(`standard output could not be written: ${reasonNotWritten(cause)}.`);
  }
}

/** Writes to a stream, no faster than it takes it. */
export class Output {
  readonly #stream: Writable;
  #error: Error | null = null;
  readonly #onError = (error: Error): void => {
    this.#error = (error as NodeJS.ErrnoException).code === 'EPIPE' ? new OutputClosed() : new OutputFailed(error);
  };

  constructor(stream: Writable) {
    this.#stream = stream;
    stream.on('error', this.#onError);
  }

  /** @throws OutputClosed when nobody reads any more, OutputFailed when the stream failed */
  async write(text: string): Promise<void> {
    this.#check();
    if (!this.#stream.write(text)) await this.#settled();
    this.#check();
  }

  /** Wait until all is written. */
  async flush(): Promise<void> {
    await new Promise<void>((resolve) => this.#stream.write('', () => resolve()));
    this.#stream.off('error', this.#onError);
    this.#check();
  }

  #check(): void {
    if (this.#error !== null) throw this.#error;
  }

  /** Resolves when the stream takes more, or will never. */
  #settled(): Promise<void> {
    const stream = this.#stream;
    const events = ['drain', 'error', 'close'];
    return new Promise((resolve) => {
      const done = (): void => {
        for (const event of events) stream.off(event, done);
        resolve();
      };
      for (const event of events) stream.on(event, done);
    });
  }
}
