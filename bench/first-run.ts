import { mkdtemp, readFile, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { countCalls } from './count-calls.js';
import { makeFolder } from './make-folder.js';
import { writeTable } from './report.js';
import { PROJECT, runCoilbook, runMeasured, runPython, scriptPath, type Usage } from './run-measured.js';

const CAPTURES = 20_000;
const ROUNDS = 2;
const DAY = '2026-11-23';
const PEER = join(PROJECT, 'bench', 'peer', 'peer.py');

/**
 * A first run, all captures new, from files to book and tables, beside a plain script that does less: it keeps the captures and
 * what their columns did in SQLite, checks nothing and writes the same `sales.csv`. They take turns, and of each the round counts
 * that took least.
 */
export async function benchFirstRun(captures = CAPTURES): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'coilbook-bench-'));
  try {
    const { files, machines } = await makeFolder(folder, captures);
    const [book, out, peerBook, peerOut] = ['book.db', 'out', 'peer.db', 'peer.csv'].map((name) => join(folder, name));
    const args = ['day', files, '--book', book!, '--machines', machines, '--day', DAY, '--out', out!, '--no-pages'];
    const removeBook = async (): Promise<void> => {
      for (const path of [book!, `${book}-wal`, `${book}-shm`, out!]) await rm(path, { recursive: true, force: true });
    };
    // Once before it is measured, so that every file is in the system's memory for all.
    await runMeasured(scriptPath('read-and-hash.js'), [files]);
    const [own, peer, starts]: [Usage[], Usage[], Usage[]] = [[], [], []];
    for (let round = 0; round < ROUNDS; round++) {
      await removeBook();
      await rm(peerBook!, { force: true });
      starts.push(await runCoilbook(['--version']));
      own.push(await runCoilbook(args));
      peer.push(await runPython(PEER, [files, machines, peerBook!, peerOut!]));
      if (peer.at(-1)!.status !== 0) throw new Error('the peer failed');
    }
    const isSame = (await sortedLines(join(out!, 'sales.csv'))) === (await sortedLines(peerOut!));
    const [bookBytes, peerBytes] = [(await stat(book!)).size, (await stat(peerBook!)).size];
    await removeBook();
    const checks = await countCalls('checkRead', (env) => runCoilbook(args, env));
    const [first, plain] = [leastOf(own), leastOf(peer)];
    const row = (name: string, usage: Usage, bytes: number): string[] => [
      name,
      ((usage.cpuSeconds / captures) * 1000).toFixed(2),
      (usage.cpuSeconds / plain.cpuSeconds).toFixed(2),
      usage.peakMegabytes.toFixed(0),
      (bytes / captures).toFixed(0),
    ];
    const heads = ['', 'ms a capture', '× plain script', 'MB peak', 'book bytes a capture'];
    const rows = [row('coilbook day', first, bookBytes), row('plain script', plain, peerBytes)];
    const notes = [
      `Start of the program (in the figure above): ${(leastOf(starts).cpuSeconds * 1000).toFixed(0)} ms.`,
      `Checks a capture: ${(checks / captures).toFixed(1)}.`,
      `sales.csv of both: ${isSame ? 'the same rows, byte for byte' : 'DIFFERENT'}.`,
    ];
    return `First run, ${captures.toLocaleString('en')} captures:\n\n${writeTable(heads, rows)}\n\n${notes.join('\n')}`;
  } finally {
    await rm(folder, { recursive: true });
  }
}

function leastOf(usages: readonly Usage[]): Usage {
  return usages.reduce((least, usage) => (usage.cpuSeconds < least.cpuSeconds ? usage : least));
}

/** A machine's place in the table is a matter of what it was worked out beside. */
async function sortedLines(path: string): Promise<string> {
  return (await readFile(path, 'utf8')).split('\r\n').sort().join('\r\n');
}
