// The built program as a user of no special rights, since those of root are above those of any file: `run-as-nobody ARGUMENT…`.
import Database from 'better-sqlite3';
import { run } from '../../dist/cli/index.js';

// What lies where only root may read is loaded before.
new Database(':memory:').close();
if (process.getuid?.() === 0) process.setuid?.(65534);

const { stdin, stdout, stderr, env } = process;
process.exitCode = await run(process.argv.slice(2), {
  stdin,
  stdout,
  stderr,
  env,
  now: () => new Date('2026-11-25T22:00:00Z'),
  cwd: process.cwd(),
});
