#!/usr/bin/env node
import { run } from '../dist/cli/index.js';

const { stdin, stdout, stderr, env } = process;
// A reader that goes away (`| head`) is no error, also when it goes after the last write.
for (const stream of [stdout, stderr]) {
  stream.on('error', (error) => {
    if (error.code !== 'EPIPE') throw error;
  });
}
process.exitCode = await run(process.argv.slice(2), {
  stdin,
  stdout,
  stderr,
  env,
  now: () => new Date(),
  cwd: process.cwd(),
});
