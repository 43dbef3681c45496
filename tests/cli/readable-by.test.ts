import { Command } from 'commander';
import { expect, it } from 'vitest';
import { addReadableBy } from '../../src/cli/readable-by.js';
import type { Terminal } from '../../src/cli/terminal.js';

/** The mask that a run sets with these arguments; null when it sets none. */
async function maskOf(...argv: string[]): Promise<number | null> {
  let set: number | null = null;
  const terminal = { setMask: (mask: number) => (set = mask) } as unknown as Terminal;
  const command = addReadableBy(new Command('day').exitOverride(), terminal).action(() => {});
  await command.configureOutput({ writeErr: () => {} }).parseAsync(argv, { from: 'user' });
  return set;
}

// POSIX: a bit of the mask takes the right away. 7 takes all, 2 writing.
it('takes the rights of others away as far as it is asked to', async () => {
  expect(await maskOf()).toBeNull();
  expect(await maskOf('--readable-by', 'owner')).toBe(0o077);
  expect(await maskOf('--readable-by', 'group')).toBe(0o027);
  expect(await maskOf('--readable-by', 'all')).toBe(0o022);
  await expect(maskOf('--readable-by', 'everybody')).rejects.toThrow('Allowed choices');
});
