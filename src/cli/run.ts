import { readFileSync } from 'node:fs';
import { type Command, CommanderError } from 'commander';
import { isSystemError, printable } from '../index.js';
import { reasonNotWritten } from '../io/index.js';
import { EXIT, InputError, UsageError } from './exit-status.js';
import { OutputClosed } from './output.js';
import { printText } from './print-lines.js';
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
  const help: string[] = [];
  const program = makeProgram(readVersion(), terminal, (done) => {
    status = done;
  });
  for (const command of withSubcommands(program)) {
    command.exitOverride().configureOutput({
      writeOut: (text) => help.push(text),
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
    refuseEmpty(argv);
    await program.parseAsync(argv, { from: 'user' });
    return status;
  } catch (error) {
    return await sayError(error, help, terminal).catch((failed: unknown) => sayFailure(failed, terminal));
  }
}

/** A command and all below it. */
function withSubcommands(command: Command): Command[] {
  return [command, ...command.commands.flatMap(withSubcommands)];
}

/** @throws UsageError for an argument that is nothing: shells make it of a variable that is not set */
function refuseEmpty(argv: readonly string[]): void {
  const at = argv.findIndex((argument) => argument === '' || /^--[\w-]+=$/.test(argument));
  if (at < 0) return;
  const what = argv[at] === '' ? 'an argument' : argv[at]!.slice(0, -1);
  throw new UsageError(`${what} is empty; expected a name or a value`);
}

/** Help and version are no error, and what was wrong Commander has said already. */
async function sayError(error: unknown, help: readonly string[], terminal: Terminal): Promise<number> {
  if (!(error instanceof CommanderError)) return sayFailure(error, terminal);
  if (help.length > 0) await printText(help.join(''), terminal);
  return error.exitCode === 0 ? EXIT.ok : EXIT.usage;
}

function sayFailure(error: unknown, { stderr, env }: Terminal): number {
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
  if (error instanceof InputError) {
    stderr.write(`coilbook: ${printable(message, 400)}\n`);
    return EXIT.input;
  }
  if (isSystemError(error)) {
    // What is read says itself what it could not: this was to be written.
    const { path } = error as NodeJS.ErrnoException;
    const what = path === undefined ? 'the output' : printable(String(path), 200);
    stderr.write(`coilbook: ${what} could not be written: ${reasonNotWritten(error)}.\n`);
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
