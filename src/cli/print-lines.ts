import { Output } from './output.js';
import type { Terminal } from './terminal.js';

/** Print lines to standard output, and wait until all are written. */
export async function printLines(lines: readonly string[], { stdout }: Terminal): Promise<void> {
  const output = new Output(stdout);
  await output.write(`${lines.join('\n')}\n`);
  await output.flush();
}
