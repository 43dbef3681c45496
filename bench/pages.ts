import { mkdtemp, readdir, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeFolder } from './make-folder.js';
import { writeTable } from './report.js';
import { runCoilbook } from './run-measured.js';

const MACHINES = [500, 2_000];
/** As many as `makeFolder` makes of each machine. */
const READS = 4;
const DAY = ['--day', '2026-11-23'];

async function measure(machines: number): Promise<string[]> {
  const folder = await mkdtemp(join(tmpdir(), 'coilbook-bench-'));
  try {
    const { files, machines: roster } = await makeFolder(folder, machines * READS);
    const book = ['--book', join(folder, 'book.db'), '--machines', roster, ...DAY];
    const out = join(folder, 'pages');
    await runCoilbook(['day', files, ...book]);
    const alone = await runCoilbook(['day', ...book]);
    const report = await runCoilbook(['report', ...book, '--out', out]);
    const sizes: number[] = [];
    for (const name of await readdir(out)) if (name.endsWith('.html')) sizes.push((await stat(join(out, name))).size);
    // Without pages the same day is made as well: what is left is the pages' own.
    const seconds = report.cpuSeconds - alone.cpuSeconds;
    return [
      machines.toLocaleString('en'),
      sizes.length.toLocaleString('en'),
      report.cpuSeconds.toFixed(1),
      (sizes.length / seconds).toFixed(0),
      report.peakMegabytes.toFixed(0),
      (sizes.reduce((a, b) => Math.max(a, b)) / 1000).toFixed(0),
      (sizes.reduce((sum, size) => sum + size, 0) / 2 ** 20).toFixed(0),
    ];
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** How quick the pages of a day are, whether memory stays flat, and whether a page is too large. */
export async function benchPages(): Promise<string> {
  const rows: string[][] = [];
  for (const machines of MACHINES) rows.push(await measure(machines));
  const heads = ['machines', 'pages', 'processor s', 'pages/s', 'MB peak', 'KB largest', 'MB in all'];
  return `The pages of a day, ${READS} reads of each machine, 45 columns:\n\n${writeTable(heads, rows)}`;
}
