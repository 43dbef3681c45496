import { type Command, Option } from 'commander';
import type { Terminal } from './terminal.js';

/** Masks of the files that a run makes, by who may read them (POSIX `umask`). */
const MASKS: Readonly<Record<string, number>> = { owner: 0o077, group: 0o027, all: 0o022 };

/** Add the option that says who may read what a command writes. */
export function addReadableBy(command: Command, { setMask }: Terminal): Command {
  const option = new Option(
    '--readable-by <who>',
    'who may read the files that are made (owner, or as a umask chosen says)',
  );
  return command.addOption(option.choices(Object.keys(MASKS))).hook('preAction', () => {
    const { readableBy } = command.opts<{ readonly readableBy?: string }>();
    if (readableBy !== undefined) setMask?.(MASKS[readableBy]!);
  });
}
