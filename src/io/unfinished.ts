import { createHash, randomBytes } from 'node:crypto';
import { readdirSync, rmSync, statSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';

/** What nobody has written to for so long was left by a run that was killed, on whichever computer. */
const LEFT_AFTER_MS = 60 * 60 * 1000;
const IN_FLIGHT_MS = 60;
const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** This computer, as it stands in names: others may write to the same folder. */
const here = createHash('sha256').update(hostname()).digest('hex').slice(0, 6);

/** A mark for the name of a file that is not finished: it tells whose it is, and no other has it. */
export const markUnfinished = (): string => `${here}-${process.pid}-${randomBytes(4).toString('hex')}`;

/**
 * Whether a file or folder was left by a run that is no more.
 *
 * @param name - with its mark, see {@link markUnfinished}
 * @param changedMs - when it was last written to
 */
export function isAbandoned(name: string, changedMs: number, now: number = Date.now()): boolean {
  const [, host, pid] = /([0-9a-f]{6})-(\d+)-[0-9a-f]{8}/.exec(name) ?? [];
  if (host === here && !isRunning(Number(pid))) return true;
  return now - changedMs > LEFT_AFTER_MS;
}

/**
 * Take away from a folder what runs left that are no more.
 *
 * @param isUnfinished - whether a name is one of what this program does not finish
 * @throws the system's error when the folder can not be read, or what is in it not removed
 */
export function sweepUnfinished(folder: string, isUnfinished: (name: string) => boolean): void {
  for (const name of readdirSync(folder)) {
    if (!isUnfinished(name)) continue;
    const path = join(folder, name);
    // Another run may be sweeping, too.
    const found = statSync(path, { throwIfNoEntry: false });
    if (found !== undefined && isAbandoned(name, found.mtimeMs)) rmSync(path, { recursive: true, force: true });
  }
}

function isRunning(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    // It is there, but somebody else's.
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

const unfinished = new Set<string>();

/** Take a file or folder away should this process be asked to end meanwhile, until the function given back is called. */
export function removeWhenStopped(path: string): () => void {
  if (unfinished.size === 0) for (const signal of SIGNALS) process.on(signal, stop);
  unfinished.add(path);
  return () => {
    unfinished.delete(path);
    if (unfinished.size === 0) for (const signal of SIGNALS) process.off(signal, stop);
  };
}

function removeAll(): void {
  for (const path of unfinished) rmSync(path, { recursive: true, force: true, maxRetries: 3 });
}

function stop(signal: NodeJS.Signals): void {
  removeAll();
  // What the system was doing at that moment may have made some of it anew.
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, IN_FLIGHT_MS);
  removeAll();
  // With no one listening any more it ends the process, as it would have without us.
  for (const each of SIGNALS) process.off(each, stop);
  process.kill(process.pid, signal);
}
