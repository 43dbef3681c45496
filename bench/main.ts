import { describeMachine } from './report.js';

// Each is loaded only when its turn comes, so that none stands in another's memory or optimized code.
const BENCHES: Readonly<Record<string, () => Promise<string>>> = {
  throughput: async () => (await import('./throughput.js')).benchThroughput(),
  memory: async () => (await import('./memory.js')).benchMemory(),
  day: async () => (await import('./day.js')).benchDay(),
  pages: async () => (await import('./pages.js')).benchPages(),
  intervals: async () => (await import('./intervals.js')).benchIntervals(),
};

const wanted = process.argv.slice(2);
console.log(`${describeMachine()}\n`);
for (const [name, run] of Object.entries(BENCHES)) {
  if (wanted.length === 0 || wanted.includes(name)) console.log(`${await run()}\n`);
}
