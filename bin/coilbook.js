#!/usr/bin/env node
import { setFlagsFromString } from 'node:v8';

// A command mostly ends before what V8 optimizes has paid for itself: a function has to be busy eight times as long as by default
// before it is. That halves what a night spends on it; a run of many thousand captures takes the same.
setFlagsFromString('--interrupt-budget=540672');
const { run } = await import('../dist/cli/index.js');

const { stdin, stdout, stderr, env } = process;
// What is made is its owner's alone, unless a mask was chosen that says otherwise: 022 and 002 are what systems come with.
const mask = process.umask(0o077);
if (mask !== 0o022 && mask !== 0o002) process.umask(mask);
// What could not be written is told by the run itself; a reader that goes away (`| head`) is no error, also after the last write.
for (const stream of [stdout, stderr]) stream.on('error', () => {});
process.exitCode = await run(process.argv.slice(2), {
  stdin,
  stdout,
  stderr,
  env,
  now: () => new Date(),
  cwd: process.cwd(),
  setMask: (mask) => process.umask(mask),
});
