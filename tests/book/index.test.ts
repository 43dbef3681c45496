import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build, type Metafile } from 'esbuild';
import { describe, expect, it } from 'vitest';
import * as book from '../../src/book/index.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

async function look(entry: string): Promise<Metafile> {
  const { metafile } = await build({
    entryPoints: [`${ROOT}/${entry}`],
    absWorkingDir: ROOT,
    bundle: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    write: false,
    metafile: true,
  });
  return metafile;
}

/** Everything that is loaded before the first line of an entry runs: all that is reached without a dynamic import. */
async function loadedWith(entry: string): Promise<ReadonlySet<string>> {
  const { inputs } = await look(entry);
  const loaded = new Set<string>();
  const load = (name: string): void => {
    if (loaded.has(name)) return;
    loaded.add(name);
    for (const { path, kind } of inputs[name]?.imports ?? []) if (kind !== 'dynamic-import') load(path);
  };
  load(entry);
  return loaded;
}

describe('the book as a part of the library', () => {
  it.each(['src/book/index.ts', 'src/cli/book-check-proof.ts'])(
    '%s loads neither the database nor the writer of tables before they are needed',
    async (entry) => {
      const loaded = await loadedWith(entry);
      expect(loaded).toContain('src/book/check-proof.ts');
      for (const name of ['better-sqlite3', 'hyparquet-writer']) expect(loaded).not.toContain(name);
    },
  );

  it('loads them at all, so that the check above would find them', async () => {
    const { inputs } = await look('src/book/index.ts');
    const dynamic = Object.values(inputs).flatMap(({ imports }) =>
      imports.flatMap(({ path, kind }) => (kind === 'dynamic-import' ? [path] : [])),
    );
    expect(dynamic).toEqual(expect.arrayContaining(['better-sqlite3', 'hyparquet-writer']));
  });

  it('is exported, with what it takes to keep, prove and export one', () => {
    const { exports } = JSON.parse(readFileSync(`${ROOT}/package.json`, 'utf8')) as {
      exports: Record<string, unknown>;
    };
    expect(exports['./book']).toEqual({ types: './dist/book/index.d.ts', default: './dist/book/index.js' });
    for (const name of ['openSqliteBook', 'takeIn', 'verifyBook', 'makeInclusionProof', 'checkProof', 'exportBook']) {
      expect(book).toHaveProperty(name);
    }
  });
});
