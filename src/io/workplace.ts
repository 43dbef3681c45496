import { resolve } from 'node:path';

/** Where relative paths start from, and what the name `-` stands for. */
export interface Workplace {
  readonly cwd: string;
  readonly stdin: AsyncIterable<Uint8Array | string>;
}

/** The name by which standard input is asked for. */
export const STANDARD_INPUT = '-';

/** The path of a file that the user named. */
export function pathOf(file: string, { cwd }: Workplace): string {
  return resolve(cwd, file);
}

/** The process's own folder and standard input. */
export function currentWorkplace(): Workplace {
  return { cwd: process.cwd(), stdin: process.stdin };
}
