import { readFileSync } from 'node:fs';
import { type Command, CommanderError } from 'commander';
import { isSystemError, printable } from '../index.js';
import { EXIT, InputError, UsageError } from './exit-status.js';
import { OutputClosed } from './output.js';
import { makeProgram } from './program.js';
import type { Terminal } from './terminal.js';

/**
 * Run the program once. It never ends the process and touches nothing but what it is given.
 *
 * @param argv - the arguments after the program's name
 * @returns the exit status: 0 nothing to look at, 1 doubts or differences, 2 faults, 64 wrong use, 66 input missing or
 *   unreadable, 70 a defect of the program itself
 */
export async function run(argv: readonly string[], terminal: Terminal): Promise<number> {
  let status: number = EXIT.ok;
  const program = makeProgram(readVersion(), terminal, (done) => {
    status = done;
  });
  for (const command of withSubcommands(program)) {
    command.exitOverride().configureOutput({
      writeOut: (text) => terminal.stdout.write(text),
      writeErr: (text) => terminal.stderr.write(text),
      outputError: (text, write) =>
        write(
          sayUsage(
            text
              .replace(/^error: /, '')
              .replaceAll('\n', ' ')
              .trim(),
          ),
        ),
      getOutHelpWidth: () => 80,
      getErrHelpWidth: () => 80,
    });
  }
  try {
    await program.parseAsync(argv, { from: 'user' });
    return status;
  } catch (error) {
    return sayError(error, terminal);
  }
}

/** A command and all below it. */
function withSubcommands(command: Command): Command[] {
  return [command, ...command.commands.flatMap(withSubcommands)];
}

function sayError(error: unknown, { stderr, env }: Terminal): number {
  // Commander has said what was wrong already; help and version are no error.
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.ok : EXIT.usage;
  if (error instanceof OutputClosed) return EXIT.ok;
  if (error instanceof UsageError) {
    stderr.write(
      sayUsage(
        error.message
          .split('\n')
          .map((line) => printable(line, 400))
          .join('\n'),
      ),
    );
    return EXIT.usage;
  }
  const message = error instanceof Error ? error.message : String(error);
  if (error instanceof InputError || isSystemError(error)) {
    stderr.write(`coilbook: ${printable(message, 400)}\n`);
    return EXIT.input;
  }
  stderr.write(`coilbook: a defect of this program: ${printable(message, 400)}\n`);
  if (env.COILBOOK_DEBUG !== undefined && error instanceof Error) stderr.write(`${error.stack}\n`);
  else stderr.write('Set COILBOOK_DEBUG=1 to see where. Your captures were only read, never changed.\n');
  return EXIT.defect;
}

function sayUsage(message: string): string {
  return `coilbook: ${message}\n`;
}

function readVersion(): string {
  const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  return version;
}
