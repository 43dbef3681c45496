import { expect, it } from 'vitest';
import { printLines } from '../../src/cli/print-lines.js';
import { Collector } from './run-program.js';

it('prints each line with its end', async () => {
  const stdout = new Collector(false);
  await printLines(['a', '', 'b'], {
    stdin: process.stdin,
    stdout,
    stderr: new Collector(false),
    env: {},
    now: () => new Date(0),
    cwd: '/',
  });
  expect(stdout.text).toBe('a\n\nb\n');
});
