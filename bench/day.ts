import { spawnSync } from 'node:child_process';
import { mkdtemp, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeFolder } from './make-folder.js';
import { writeTable } from './report.js';
import { runCoilbook, runMeasured, scriptPath, type Usage } from './run-measured.js';

const SIZES = [5_000, 20_000, 80_000];
const DAY = '2026-11-23';

/** What was measured of one size. */
interface DayTimes {
  readonly captures: number;
  readonly floor: Usage;
  readonly first: Usage;
  readonly second: Usage;
  readonly megabytes: number;
  readonly importSeconds: number | null;
}

async function measure(captures: number): Promise<DayTimes> {
  const folder = await mkdtemp(join(tmpdir(), 'coilbook-bench-'));
  try {
    const { files, machines } = await makeFolder(folder, captures);
    const book = join(folder, 'book.db');
    const out = join(folder, 'out');
    const args = ['day', files, '--book', book, '--machines', machines, '--day', DAY, '--out', out, '--no-pages'];
    // Once before it is measured, so that every file is in the system's memory for all.
    await runMeasured(scriptPath('read-and-hash.js'), [files]);
    const floor = await runMeasured(scriptPath('read-and-hash.js'), [files]);
    const first = await runCoilbook(args);
    const second = await runCoilbook(args);
    const importSeconds = await importRows(folder, out);
    return { captures, floor, first, second, megabytes: (await stat(book)).size / 2 ** 20, importSeconds };
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** How long the SQLite shell takes to import the rows of the day's sales and cash alone; null where it is not installed. */
async function importRows(folder: string, out: string): Promise<number | null> {
  const script = join(folder, 'import.sql');
  const lines = ['sales', 'cash', 'refill'].map((name) => `.import --csv ${join(out, `${name}.csv`)} ${name}`);
  await writeFile(script, `PRAGMA journal_mode = WAL;\nPRAGMA synchronous = FULL;\n${lines.join('\n')}\n`);
  const start = performance.now();
  const { status } = spawnSync('sqlite3', [join(folder, 'rows.db'), `.read ${script}`], { stdio: 'ignore' });
  return status === 0 ? (performance.now() - start) / 1000 : null;
}

const each = (seconds: number, { captures }: DayTimes): string => ((seconds / captures) * 1e6).toFixed(0);
const ratio = (a: number, b: number): string => (a / b).toFixed(2);

/** How a day's run grows: against the floor of reading and hashing every file, and against importing the same rows. */
export async function benchDay(): Promise<string> {
  const all: DayTimes[] = [];
  for (const captures of SIZES) all.push(await measure(captures));
  const heads = [
    'captures',
    'floor',
    'first',
    '× floor',
    '× .import',
    'second',
    '÷ first',
    'MB peak',
    'MB book',
    'growth',
  ];
  const rows = all.map((times, i) => {
    const { captures, floor, first, second, importSeconds, megabytes } = times;
    const before = all[i - 1];
    return [
      captures.toLocaleString('en'),
      each(floor.cpuSeconds, times),
      each(first.cpuSeconds, times),
      ratio(first.cpuSeconds, floor.cpuSeconds),
      importSeconds === null ? '-' : ratio(first.seconds, importSeconds),
      each(second.cpuSeconds, times),
      ratio(second.cpuSeconds, first.cpuSeconds),
      Math.max(first.peakMegabytes, second.peakMegabytes).toFixed(0),
      megabytes.toFixed(0),
      before === undefined ? '' : ratio(first.cpuSeconds / captures, before.first.cpuSeconds / before.captures),
    ];
  });
  return `A day's run; µs of processor time a capture:\n\n${writeTable(heads, rows)}`;
}
