import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { GivenFile } from './check-html.js';

const DEMO = fileURLToPath(new URL('../../../fixtures/demo', import.meta.url));

/** The captures of the demo, in the order of their names. */
export const DEMO_CAPTURES: readonly string[] = readdirSync(`${DEMO}/captures`).sort();

/** A capture of the demo. */
export function demoCapture(name: string): GivenFile {
  return { name, content: readFileSync(`${DEMO}/captures/${name}`) };
}

/** The sheets of the demo that say something of captures, and the counts, which do not. */
export const DEMO_SHEETS: readonly GivenFile[] = ['machines.csv', 'plan.csv', 'captures.csv', 'counts.csv'].map(
  (name) => ({
    name,
    content: readFileSync(`${DEMO}/${name}`),
  }),
);

/** One capture of each kind, by what was done to it. */
export const GOOD = '2026-11-23-0805-v101.dex';
export const DAMAGED = '2026-11-22-2212-v107.dex';
export const CUT = '2026-11-21-2206-v104.dex';
