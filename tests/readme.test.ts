import { appendFileSync, cpSync, readdirSync, readFileSync, renameSync, utimesSync, writeFileSync } from 'node:fs';
import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { run } from '../src/cli/index.js';
import { nameElements, PARTLY_CONFIRMED, UNCONFIRMED } from '../src/explain/index.js';
import { FINDING_CODES } from '../src/findings/index.js';
import { Collector } from './cli/run-program.js';

const README = new URL('../README.md', import.meta.url);
const DEMO = fileURLToPath(new URL('../fixtures/demo/', import.meta.url));
const EXAMPLE = /```text\n\$ coilbook ([^\n]*)\n([^`]*)```/g;
const CODES = /<!-- codes -->\n(?:[\s\S]*?<!-- \/codes -->\n)?/;
const PICTURE = /!\[[^\]]+\]\(([^)]+)\)/g;
/** An example that ends so shows only the first lines of what is printed. */
const MORE = /^\.\.\. \(\d+ more lines\)$/;
/** These examples have a book: they run in order, in one copy of the demo. */
const WITH_BOOK = /^(?:day|report|book) |--book /;
/** What the README says of the first evening: this capture comes a day later, and a file that is none lies among the others. */
const LATE = '2026-11-23-0859-v103.dex';

let office = '';
beforeAll(async () => {
  office = await mkdtemp(join(tmpdir(), 'coilbook-readme-'));
  cpSync(DEMO, office, { recursive: true });
  await mkdir(join(office, 'late'));
  renameSync(join(office, 'captures', LATE), join(office, 'late', LATE));
  writeFileSync(join(office, 'captures/notes.txt'), 'No capture, and not lost either.\n');
  const [head, ...rows] = readFileSync(join(DEMO, 'counts.csv'), 'utf8').split('\n');
  const recount = rows.find((row) => row.includes(',B4406,'))!.replace(',121.10,', ',126.10,');
  appendFileSync(join(office, 'recount.csv'), `${head}\n${recount}\n`);
  // The book keeps a file's time, and the root is over it: all are of one evening, by whatever clock this runs.
  const written = new Date(2026, 10, 23, 22, 20);
  for (const folder of ['captures', 'late'])
    for (const name of readdirSync(join(office, folder))) utimesSync(join(office, folder, name), written, written);
});
afterAll(() => rm(office, { recursive: true }));

/** When an example is run: the night's run at 22:30 of its day, all else at 9 on the morning after (UTC). */
class Clock {
  #evening = Date.UTC(2026, 10, 23, 22, 30);

  at(line: string): Date {
    const day = /^day .*--day (\S+)/.exec(line)?.[1];
    if (day !== undefined) this.#evening = Date.parse(`${day}T22:30:00Z`);
    return new Date(this.#evening + (day === undefined ? 10.5 * 3_600_000 : 0));
  }
}

/** What a command prints for a user who typed it in the demo's folder, or in the copy of it that has a book. */
async function printedBy(line: string, clock: Clock): Promise<string> {
  const [command, file] = line.split(' > ') as [string, string?];
  const words = command.match(/"[^"]*"|\S+/g)!.map((word) => word.replaceAll('"', ''));
  const stdout = new Collector(false);
  const stderr = new Collector(false);
  const cwd = WITH_BOOK.test(line) ? office : DEMO;
  const now = clock.at(line);
  const terminal = { stdin: Readable.from([]), stdout, stderr, env: { NO_COLOR: '1' }, now: () => now, cwd };
  expect([line, await run(words, terminal)]).toEqual([line, expect.toSatisfy((status) => status <= 2)]);
  if (file === undefined) return (stderr.text + stdout.text).trimEnd();
  writeFileSync(join(cwd, file), stdout.text);
  return stderr.text.trimEnd();
}

/** As many of the printed lines as the example shows. */
function cutAs(shown: string, printed: string): string {
  const lines = shown.trim().split('\n');
  if (!MORE.test(lines.at(-1)!)) return printed;
  const all = printed.split('\n');
  const kept = lines.length - 1;
  expect(all.length, 'an example that is cut has more lines than it shows').toBeGreaterThan(kept);
  return [...all.slice(0, kept), `... (${all.length - kept} more lines)`].join('\n');
}

function tableOfCodes(): string {
  const rows = Object.entries(FINDING_CODES).map(
    ([code, { severity, title }]) => `| \`${code}\` | ${severity} | ${title} |`,
  );
  return [
    '<!-- codes -->',
    '',
    '| code | weight | what it says |',
    '|---|---|---|',
    ...rows,
    '',
    '<!-- /codes -->',
    '',
  ].join('\n');
}

const UNCONFIRMED_LIST = /<!-- unconfirmed -->\n[\s\S]*?<!-- \/unconfirmed -->\n/;

/** What no check of digits can see, as tests/attack/unconfirmed.test.ts measures it. */
function listOfUnconfirmed(): string {
  return [
    '<!-- unconfirmed -->',
    '',
    `  ${nameElements(UNCONFIRMED).join(', ')};`,
    `  on some machines also ${nameElements(PARTLY_CONFIRMED).join(', ')}`,
    '',
    '<!-- /unconfirmed -->',
    '',
  ].join('\n');
}

/** The README as it must be: every example with what the command really prints, every code in the table. */
async function expectedReadme(readme: string): Promise<string> {
  let text = readme.replace(CODES, () => tableOfCodes()).replace(UNCONFIRMED_LIST, () => listOfUnconfirmed());
  const clock = new Clock();
  for (const [example, line, shown] of readme.matchAll(EXAMPLE)) {
    const printed = cutAs(shown!, await printedBy(line!, clock));
    const block = ['```text', `$ coilbook ${line}`, ...(printed === '' ? [] : ['', printed]), '```'].join('\n');
    text = text.replace(example, () => block);
  }
  return text;
}

it('shows what the commands really print, and every code there is (COILBOOK_WRITE_README=1 rewrites it)', {
  timeout: 120_000,
}, async () => {
  const readme = readFileSync(README, 'utf8');
  const expected = await expectedReadme(readme);
  if (process.env.COILBOOK_WRITE_README === '1') writeFileSync(README, expected);
  else expect(readme).toBe(expected);
});

it('shows pictures that are there, each said in words too, and small enough', () => {
  const named = [...readFileSync(README, 'utf8').matchAll(PICTURE)].map(([, file]) => file!);
  expect(named.length).toBeGreaterThan(0);
  const sizes = named.map((file) => readFileSync(new URL(`../${file}`, import.meta.url)).length);
  expect(Math.max(...sizes)).toBeLessThan(80_000);
  expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(300_000);
  expect(named.map((file) => file.replace('fixtures/pictures/', '')).sort()).toEqual(
    readdirSync(new URL('../fixtures/pictures', import.meta.url)).sort(),
  );
});
