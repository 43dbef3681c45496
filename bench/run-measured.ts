import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** What a process took from its start to its end. */
export interface Usage {
  readonly seconds: number;
  /** Processor time of all its threads. */
  readonly cpuSeconds: number;
  readonly peakMegabytes: number;
  readonly status: number;
}

const REPORT_USAGE = new URL('./report-usage.js', import.meta.url).href;

/** Run a script of Node in a process of its own, and see what it takes. */
export async function runMeasured(script: string, args: readonly string[]): Promise<Usage> {
  const start = performance.now();
  const child = spawn(process.execPath, ['--import', REPORT_USAGE, script, ...args], {
    stdio: ['ignore', 'ignore', 'inherit', 'pipe'],
  });
  let told = '';
  (child.stdio[3] as NodeJS.ReadableStream).on('data', (chunk) => {
    told += String(chunk);
  });
  const status = await new Promise<number>((resolve) => child.on('close', (code) => resolve(code ?? -1)));
  const seconds = (performance.now() - start) / 1000;
  const { cpuMicros, peakKilobytes } = JSON.parse(told) as { cpuMicros: number; peakKilobytes: number };
  return { seconds, cpuSeconds: cpuMicros / 1e6, peakMegabytes: peakKilobytes / 1024, status };
}

/** The path of a script beside this one, once it is compiled. */
export const scriptPath = (name: string): string => fileURLToPath(new URL(name, import.meta.url));
