import type { Readable, Writable } from 'node:stream';

/** What a run of the program has around it. */
export interface Terminal {
  readonly stdin: Readable | AsyncIterable<Uint8Array | string>;
  readonly stdout: Writable & { readonly isTTY?: boolean };
  readonly stderr: Writable & { readonly isTTY?: boolean };
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly now: () => Date;
  readonly cwd: string;
  /** Set who may read files that are made from now on, as POSIX `umask` does; absent where nobody can. */
  readonly setMask?: (mask: number) => void;
}
