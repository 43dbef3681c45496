import { spawn } from 'node:child_process';
import { join } from 'node:path';
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
export function runMeasured(script: string, args: readonly string[], env: NodeJS.ProcessEnv = {}): Promise<Usage> {
  return measure(process.execPath, ['--import', REPORT_USAGE, script, ...args], env);
}

/** The same of a script of Python that tells by itself, as `report-usage.ts` does, what it took. */
export function runPython(script: string, args: readonly string[]): Promise<Usage> {
  return measure('python3', [script, ...args]);
}

/** Run the program as it was built. 1 and 2 tell what was found in the captures; all above is a failure. */
export async function runCoilbook(args: readonly string[], env: NodeJS.ProcessEnv = {}): Promise<Usage> {
  const usage = await runMeasured(COILBOOK, args, env);
  if (usage.status > 2) throw new Error(`coilbook ${args[0]} ended with ${usage.status}`);
  return usage;
}

async function measure(command: string, args: readonly string[], env: NodeJS.ProcessEnv = {}): Promise<Usage> {
  const start = performance.now();
  const child = spawn(command, args, {
    stdio: ['ignore', 'ignore', 'inherit', 'pipe'],
    env: { ...process.env, ...env },
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

/** The folder of the project. */
export const PROJECT = fileURLToPath(new URL('../../..', import.meta.url));

const COILBOOK = join(PROJECT, 'bin', 'coilbook.js');

/** The path of a script beside this one, once it is compiled. */
export const scriptPath = (name: string): string => fileURLToPath(new URL(name, import.meta.url));
