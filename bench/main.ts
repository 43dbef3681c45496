import { describeMachine } from './report.js';

// Each is loaded only when its turn comes, so that none stands in another's memory or optimized code.
const BENCHES: Readonly<Record<string, (numbers: readonly number[]) => Promise<string>>> = {
  throughput: async () => (await import('./throughput.js')).benchThroughput(),
  memory: async () => (await import('./memory.js')).benchMemory(),
  nights: async (numbers) => (await import('./nights.js')).benchNights(numbers),
  first: async ([captures]) => (await import('./first-run.js')).benchFirstRun(captures),
  day: async () => (await import('./day.js')).benchDay(),
  pages: async () => (await import('./pages.js')).benchPages(),
  intervals: async () => (await import('./intervals.js')).benchIntervals(),
};

// Names of benches, and numbers for them: `nights 1 41 400`.
const args = process.argv.slice(2);
const numbers = args.filter((arg) => /^\d+$/.test(arg)).map(Number);
const wanted = args.filter((arg) => !/^\d+$/.test(arg));
console.log(`${describeMachine()}\n`);
for (const [name, run] of Object.entries(BENCHES)) {
  if (wanted.length === 0 || wanted.includes(name)) console.log(`${await run(numbers)}\n`);
}
