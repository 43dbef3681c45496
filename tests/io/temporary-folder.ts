import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach } from 'vitest';
import type { Workplace } from '../../src/io/index.js';

const made: string[] = [];

afterEach(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A folder of its own for a test, gone after it. */
export function makeFolder(files: Readonly<Record<string, string | Uint8Array>> = {}): string {
  const folder = mkdtempSync(join(tmpdir(), 'coilbook-'));
  made.push(folder);
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), content);
  }
  return folder;
}

/** A workplace in a folder, with these chunks on standard input. */
export function workIn(cwd: string, ...chunks: readonly (string | Uint8Array)[]): Workplace {
  return {
    cwd,
    stdin: (async function* () {
      yield* chunks;
    })(),
  };
}
