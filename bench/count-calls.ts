import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

interface Coverage {
  readonly result: readonly {
    readonly url: string;
    readonly functions: readonly {
      readonly functionName: string;
      readonly ranges: readonly { readonly count: number }[];
    }[];
  }[];
}

/**
 * How often a function of the program is called in a run, as V8 counts it: the program has no counter in it.
 *
 * @param run - starts the run with this environment, and waits for its end
 */
export async function countCalls(
  functionName: string,
  run: (env: NodeJS.ProcessEnv) => Promise<unknown>,
): Promise<number> {
  const folder = await mkdtemp(join(tmpdir(), 'coilbook-bench-calls-'));
  try {
    await run({ NODE_V8_COVERAGE: folder });
    let count = 0;
    let isFound = false;
    for (const name of await readdir(folder)) {
      const { result } = JSON.parse(await readFile(join(folder, name), 'utf8')) as Coverage;
      for (const { url, functions } of result) {
        if (!url.includes('/dist/')) continue;
        for (const one of functions) {
          if (one.functionName !== functionName) continue;
          isFound = true;
          count += one.ranges[0]!.count;
        }
      }
    }
    if (!isFound) throw new Error(`there is no function ${functionName}`);
    return count;
  } finally {
    await rm(folder, { recursive: true });
  }
}
