import { cp, mkdir, mkdtemp, rename, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { countCalls } from './count-calls.js';
import { type Night, NightMaker, type NightSheets } from './make-nights.js';
import { writeTable } from './report.js';
import { runCoilbook, runMeasured, scriptPath, type Usage } from './run-measured.js';

const MACHINES = 100;
const NIGHTS = [1, 6, 21, 41];
/** How often the start of the program is measured each time; the middle one counts. */
const STARTS = 3;

/** What was measured of one night. */
interface NightCost {
  readonly night: number;
  readonly start: Usage;
  readonly run: Usage;
  readonly bookBytes: number;
  readonly checks: number;
}

/** A book that grows by nights. */
class GrowingBook {
  readonly #folder: string;
  readonly #sheets: NightSheets;
  readonly book: string;

  constructor(folder: string, sheets: NightSheets) {
    this.#folder = folder;
    this.#sheets = sheets;
    this.book = join(folder, 'book.db');
  }

  /** The arguments that take a folder in, as of a night. */
  dayArgs({ day, list }: Night, captures: string, book = this.book): string[] {
    const { machines, plan } = this.#sheets;
    const sheets = ['--machines', machines, '--plan', plan, '--captures-list', list];
    return ['day', captures, ...sheets, '--book', book, '--day', day, '--no-pages'];
  }

  settleArgs({ day, counts }: Night): string[] {
    const { machines, plan } = this.#sheets;
    const sheets = ['--machines', machines, '--plan', plan, '--counts', counts];
    return ['settle', '--book', this.book, '--day', day, ...sheets, '--close', '--by', 'BENCH'];
  }

  /** Take nights in, one run of the program each, all in one process: the book is the same, and the start is saved. */
  async fill(nights: readonly Night[]): Promise<void> {
    if (nights.length === 0) return;
    const runs = nights.map((night) => ({ args: this.dayArgs(night, night.captures), now: `${night.day}T23:30:00Z` }));
    const file = join(this.#folder, 'runs.jsonl');
    await writeFile(file, runs.map((run) => `${JSON.stringify(run)}\n`).join(''));
    const { status } = await runMeasured(scriptPath('fill-book.js'), [file]);
    if (status !== 0) throw new Error(`filling the book ended with ${status}`);
  }

  /** What a run takes that has next to nothing to do: one empty file, into a new book. */
  async start(night: Night): Promise<Usage> {
    const empty = join(this.#folder, 'empty');
    await mkdir(empty, { recursive: true });
    await writeFile(join(empty, 'empty.dex'), '');
    const all: Usage[] = [];
    for (let i = 0; i < STARTS; i++) {
      const book = join(this.#folder, `empty-${i}.db`);
      all.push(await runCoilbook(this.dayArgs(night, empty, book)));
      for (const path of filesOf(book)) await rm(path, { force: true });
    }
    return all.sort((a, b) => a.cpuSeconds - b.cpuSeconds)[STARTS >> 1]!;
  }

  async measure(night: Night): Promise<NightCost> {
    const start = await this.start(night);
    // The run whose calls are counted takes a copy, for counting costs time.
    const copy = join(this.#folder, 'copy.db');
    await this.#copyTo(copy);
    const checks = await countCalls('checkRead', (env) => runCoilbook(this.dayArgs(night, night.captures, copy), env));
    for (const path of filesOf(copy)) await rm(path, { force: true });
    const run = await runCoilbook(this.dayArgs(night, night.captures));
    return { night: night.number, start, run, bookBytes: await this.bytes(), checks };
  }

  async #copyTo(copy: string): Promise<void> {
    const [from, to] = [filesOf(this.book), filesOf(copy)];
    for (const [i, path] of from.entries()) await cp(path, to[i]!).catch(ignoreMissing);
  }

  async bytes(): Promise<number> {
    const sizes = filesOf(this.book).map((path) => stat(path).then(({ size }) => size, ignoreMissing));
    return (await Promise.all(sizes)).reduce<number>((sum, size) => sum + (size ?? 0), 0);
  }
}

const filesOf = (book: string): string[] => [book, `${book}-wal`, `${book}-shm`];

function ignoreMissing(error: unknown): undefined {
  if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
}

/**
 * What a night costs by how much came before, what a late capture and closing again cost at the end of them, and the book's size.
 *
 * @param nights - the nights that are measured; those between are taken in without
 */
export async function benchNights(nights: readonly number[]): Promise<string> {
  const wanted = nights.length === 0 ? NIGHTS : [...nights].sort((a, b) => a - b);
  const last = wanted.at(-1)!;
  const folder = await mkdtemp(join(tmpdir(), 'coilbook-bench-'));
  try {
    const maker = new NightMaker(folder, MACHINES);
    const book = new GrowingBook(folder, await maker.sheets());
    const costs: NightCost[] = [];
    const late = Math.floor(last / 2);
    let lateNight: Night | null = null;
    let waiting: Night[] = [];
    let visited: Night | null = null;
    for (let number = 1; number <= last; number++) {
      const night = await maker.next();
      visited = night;
      if (number === late && !wanted.includes(number)) {
        await holdBack(folder, night);
        lateNight = night;
      }
      if (!wanted.includes(number)) {
        waiting.push(night);
        continue;
      }
      await book.fill(waiting);
      waiting = [];
      costs.push(await book.measure(night));
    }
    const further = await measureFurther(book, folder, lateNight, visited!);
    return `Nights of ${MACHINES} machines, one capture each:\n\n${layCosts(costs)}\n\n${further}`;
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** One capture of a night, neither a driver's visit nor the last of its machine, that comes long after. */
async function holdBack(folder: string, { captures, day, number }: Night): Promise<void> {
  const place = Array.from({ length: MACHINES }, (_, i) => i).find((i) => (i + number) % 7 !== 0)!;
  await mkdir(join(folder, 'late'));
  const path = join(captures, `${day}-M${place}.dex`);
  await rename(path, join(folder, 'late', basename(path)));
}

/** A late capture, and a round closed and closed again, on the book as it is after the last night. */
async function measureFurther(book: GrowingBook, folder: string, late: Night | null, last: Night): Promise<string> {
  const start = await book.start(last);
  const beyond = ({ cpuSeconds }: Usage): string => ((cpuSeconds - start.cpuSeconds) * 1000).toFixed(0);
  const runs: [string, Usage][] = [];
  // As of the last night: what comes late is taken in by a night's run like anything else.
  if (late !== null) {
    const given = { ...last, list: late.list };
    runs.push([`a capture of night ${late.number}`, await runCoilbook(book.dayArgs(given, join(folder, 'late')))]);
  }
  runs.push(['--close', await runCoilbook(book.settleArgs(last))]);
  runs.push(['--close again', await runCoilbook(book.settleArgs(last))]);
  const rows = runs.map(([name, run]) => [name, beyond(run), run.peakMegabytes.toFixed(0)]);
  return `After night ${last.number}:\n\n${writeTable(['', 'ms beyond start', 'MB peak'], rows)}`;
}

function layCosts(costs: readonly NightCost[]): string {
  const each = ({ run, start }: NightCost): number => ((run.cpuSeconds - start.cpuSeconds) / MACHINES) * 1000;
  const heads = [
    'night',
    'ms a capture',
    'start, ms',
    'checks a capture',
    'book bytes a capture',
    'MB peak',
    '× first',
  ];
  const rows = costs.map((cost) => [
    String(cost.night),
    each(cost).toFixed(2),
    (cost.start.cpuSeconds * 1000).toFixed(0),
    (cost.checks / MACHINES).toFixed(1),
    (cost.bookBytes / (cost.night * MACHINES)).toFixed(0),
    cost.run.peakMegabytes.toFixed(0),
    (each(cost) / each(costs[0]!)).toFixed(2),
  ]);
  return writeTable(heads, rows);
}
