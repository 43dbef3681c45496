import { Output } from './output.js';
import type { Terminal } from './terminal.js';

/** Print lines to standard output, and wait until all are written. */
export function printLines(lines: readonly string[], terminal: Terminal): Promise<void> {
  return printText(`${lines.join('\n')}\n`, terminal);
}

/** The same of text whose lines are ended. */
export async function printText(text: string, { stdout }: Terminal): Promise<void> {
  const output = new Output(stdout);
  await output.write(text);
  await output.flush();
}
