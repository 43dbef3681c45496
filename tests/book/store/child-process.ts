import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { rmSync } from 'node:fs';
import { basename } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { afterAll, afterEach } from 'vitest';

const REPOSITORY = fileURLToPath(new URL('../../..', import.meta.url));

const built: string[] = [];
const running = new Set<ChildProcess>();

afterEach(() => {
  for (const child of running) child.kill('SIGKILL');
});
afterAll(() => {
  for (const file of built.splice(0)) rmSync(file, { force: true });
});

/**
 * Make a script beside the tests one that Node runs by itself.
 *
 * @param script - its path from this folder
 * @returns where the script is; within the repository, so that packages are found from there
 */
export async function buildScript(script: string): Promise<string> {
  const outfile = `${REPOSITORY}node_modules/.cache/coilbook-tests/${process.pid}-${basename(script, '.ts')}.mjs`;
  await build({
    entryPoints: [fileURLToPath(new URL(script, import.meta.url))],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
    logLevel: 'silent',
  });
  built.push(outfile);
  return outfile;
}

/** A script at work in a process of its own. */
export class Child {
  readonly #process: ChildProcess;
  readonly #lines: AsyncIterator<string>;
  readonly #ended: Promise<unknown[]>;

  constructor(script: string, args: readonly (string | number)[]) {
    this.#process = spawn(process.execPath, [script, ...args.map(String)], { stdio: ['ignore', 'pipe', 'inherit'] });
    running.add(this.#process);
    this.#ended = once(this.#process, 'close').finally(() => running.delete(this.#process));
    // An iterator keeps lines that come while nobody asks for one.
    this.#lines = createInterface({ input: this.#process.stdout! })[Symbol.asyncIterator]();
  }

  /** The next line it writes; null when it ended without. */
  async nextLine(): Promise<string | null> {
    const { value, done } = await this.#lines.next();
    return done === true ? null : value;
  }

  /** End it with no chance to do anything about it, and wait until it is gone. */
  async kill(): Promise<void> {
    this.#process.kill('SIGKILL');
    await this.#ended;
  }

  /** Its exit status, once it has ended; null when it was killed. */
  async status(): Promise<number | null> {
    return (await this.#ended)[0] as number | null;
  }
}
