import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ROOT, runProgram } from '../../cli/run-program.js';
import { openWatched, type WatchedPage, type WatchedPageOptions } from './watched-page.js';

/** A folder of pages, as the program wrote them. */
export interface ReportFolder {
  readonly folder: string;
  /** Names of its pages, sorted. */
  readonly pages: readonly string[];
  readonly remove: () => void;
}

const DAY = '2026-11-23';
const LATE = '2026-11-23-0859-v103.dex';

/** Run the program in a folder; what it found there is no failure. */
export async function runIn(cwd: string, line: string): Promise<void> {
  const { status, err } = await runProgram(line.split(' '), { cwd, tick: 1000 });
  if (status > 2) throw new Error(`${line}: ${err}`);
}

/** A folder to work in, of which `out` will hold the pages. */
export function makeWorkplace(): string {
  return mkdtempSync(join(tmpdir(), 'coilbook-pages-'));
}

/** The pages in the folder `out` of a workplace. */
export function readReportFolder(work: string): ReportFolder {
  const folder = join(work, 'out');
  const pages = readdirSync(folder).filter((name) => name.endsWith('.html'));
  return { folder, pages: pages.sort(), remove: () => rmSync(work, { recursive: true, force: true }) };
}

/** The demo's day: taken in, its round closed, then a capture that came late adjusts it, and the pages are made again. */
export async function makeDemoReport(): Promise<ReportFolder> {
  const work = makeWorkplace();
  cpSync(join(ROOT, 'fixtures/demo'), work, { recursive: true });
  mkdirSync(join(work, 'late'));
  renameSync(join(work, 'captures', LATE), join(work, 'late', LATE));
  const office = '--machines machines.csv --plan plan.csv --captures-list captures.csv';
  await runIn(work, `day captures --day ${DAY} ${office} --counts counts.csv`);
  await runIn(work, `settle --book coilbook.db --day ${DAY} --counts counts.csv ${office} --close --by Office`);
  await runIn(work, `day late --day 2026-11-24 ${office}`);
  await runIn(work, `report --day ${DAY} ${office} --out out`);
  return readReportFolder(work);
}

/** Open a page of a folder. It may lead to others of the folder, and asks for nothing else. */
export function openReport(
  { folder, pages }: ReportFolder,
  name: string,
  options: WatchedPageOptions = {},
): Promise<WatchedPage> {
  const own = new Set(pages.map((page) => pathToFileURL(join(folder, page)).href));
  const address = pathToFileURL(join(folder, name.split('#')[0]!)).href;
  const fragment = name.includes('#') ? name.slice(name.indexOf('#')) : '';
  return openWatched(`${address}${fragment}`, { mayAsk: (url) => own.has(url.split('#')[0]!), ...options });
}

/** The text of a page's file. */
export function readPage({ folder }: ReportFolder, name: string): string {
  return readFileSync(join(folder, name), 'utf8');
}
