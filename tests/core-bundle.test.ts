import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { describe, expect, it } from 'vitest';
import * as core from '../src/core.js';
import * as library from '../src/index.js';

const path = (file: string): string => fileURLToPath(new URL(`../src/${file}`, import.meta.url));

/** Bundle a file for a browser; gives the names of everything it takes in. */
async function bundle(file: string): Promise<{ inputs: string[]; text: string }> {
  const result = await build({
    entryPoints: [path(file)],
    bundle: true,
    platform: 'browser',
    format: 'esm',
    write: false,
    metafile: true,
    logLevel: 'silent',
  });
  return { inputs: Object.keys(result.metafile.inputs), text: result.outputFiles[0]!.text };
}

describe('the core', () => {
  it('bundles for a browser, with no Node import left in it', async () => {
    const { inputs, text } = await bundle('core.ts');
    expect(inputs.length).toBeGreaterThan(100);
    expect(inputs.filter((input) => /(^|\/)src\/(io|cli|book|pages)\//.test(input))).toEqual([]);
    expect(text).not.toMatch(/\bfrom\s*"node:|\bimport\(\s*"node:|\brequire\(\s*"(?:node:)?(?:fs|path|stream|buffer)"/);
  });

  it('is what the check above would find, were it not so', async () => {
    await expect(bundle('index.ts')).rejects.toThrow(/node:/);
  });

  it('has the main job in it, and the library all of the core', () => {
    const names = ['readCaptures', 'checkCapture', 'buildIntervals', 'settleRound', 'explainCapture', 'traceFigure'];
    for (const name of names) expect(core).toHaveProperty(name);
    for (const name of ['intervalToJson', 'laySettlements', 'writeCsv', 'makeSchema'])
      expect(core).toHaveProperty(name);
    expect(Object.keys(core).filter((name) => !(name in library))).toEqual([]);
    for (const name of ['checkFile', 'checkFiles', 'takeFiles', 'walkFiles']) expect(library).toHaveProperty(name);
  });
});
