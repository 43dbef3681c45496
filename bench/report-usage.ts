// Loaded before a program that is measured: at its end it tells what the process took.
import { writeSync } from 'node:fs';

const USAGE_PIPE = 3;

process.on('exit', () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  writeSync(USAGE_PIPE, JSON.stringify({ cpuMicros: userCPUTime + systemCPUTime, peakKilobytes: maxRSS }));
});
