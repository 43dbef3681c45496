// Cli: the commands: options in, reporters out, no arithmetic. Uses the library through its index, as any caller would.
// In: arguments, streams, environment. Out: an exit status; data to standard output, talk to standard error.
// Must not know: how anything is read, checked or reckoned.
export { EXIT } from './exit-status.js';
export { run } from './run.js';
export type { Terminal } from './terminal.js';
