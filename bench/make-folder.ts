import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { makeHistory } from './captures.js';

const FOLDERS = 200;
/** Reads of each machine: enough that most captures make an interval. */
const READS = 4;
/** Machines made at a time, so that memory does not grow with the folder. */
const BATCH = 50;

/**
 * A day's files as they come in: captures of simulated machines, four reads of each, in 200 folders; and the roster of the
 * machines beside the folder.
 */
export async function makeFolder(path: string, captures: number): Promise<{ files: string; machines: string }> {
  const files = join(path, 'in');
  for (let i = 0; i < FOLDERS; i++) await mkdir(join(files, folderOf(i)), { recursive: true });
  const rows = ['machine,asset,location,route,currency'];
  let written = 0;
  for (let first = 0; written < captures; first += BATCH) {
    const history = makeHistory(BATCH, READS, first);
    for (let i = 0; i < history.length && written < captures; i++, written++) {
      const machine = first + Math.floor(i / READS);
      if (i % READS === 0) rows.push(`M${machine},A${1000 + machine},SITE ${machine},R${machine % 100},EUR`);
      await writeFile(join(files, folderOf(written % FOLDERS), `${machine}-${i % READS}.dex`), history[i]!);
    }
  }
  const machines = join(path, 'machines.csv');
  await writeFile(machines, `${rows.join('\n')}\n`);
  return { files, machines };
}

const folderOf = (number: number): string => String(number).padStart(3, '0');
