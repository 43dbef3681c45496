import { createReadStream } from 'node:fs';
import { mkdtemp, open, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { streamReads } from '../src/read/index.js';
import { streamSegments } from '../src/segments/index.js';
import { makeCaptures } from './captures.js';
import { writeTable } from './report.js';

const MEGABYTE = 2 ** 20;
const GIGABYTE = 2 ** 30;
const CHUNK = 64 * 1024;
const SAMPLE_EVERY = 64 * MEGABYTE;

/** Chunks of a file, and how much more memory than at the start the process held at most while they were taken. */
class WatchedFile {
  readonly #path: string;
  readonly #start = process.memoryUsage().rss;
  #peak = 0;
  #bytes = 0;

  constructor(path: string) {
    this.#path = path;
  }

  async *chunks(): AsyncGenerator<Uint8Array> {
    let sampled = 0;
    for await (const chunk of createReadStream(this.#path, { highWaterMark: CHUNK })) {
      this.#bytes += (chunk as Buffer).length;
      if (this.#bytes - sampled >= SAMPLE_EVERY) {
        sampled = this.#bytes;
        this.#peak = Math.max(this.#peak, process.memoryUsage().rss - this.#start);
      }
      yield chunk as Buffer;
    }
  }

  get bytes(): number {
    return this.#bytes;
  }

  get peakMegabytes(): number {
    return this.#peak / MEGABYTE;
  }
}

async function writeJoined(path: string, size: number): Promise<void> {
  const day = Buffer.concat([...makeCaptures(64, 'sparse'), ...makeCaptures(64, 'dense')]);
  const file = await open(path, 'w');
  for (let written = 0; written < size; written += day.length) await file.write(day);
  await file.close();
}

async function writeSparse(path: string, size: number): Promise<void> {
  const file = await open(path, 'w');
  await file.truncate(size);
  await file.close();
}

async function countSegments(chunks: AsyncIterable<Uint8Array>): Promise<string> {
  let lines = 0;
  let skipped = 0;
  for await (const block of streamSegments(chunks)) {
    lines += block.lineCount;
    for (const skip of block.parts.skips) skipped += skip.length;
  }
  return `${lines.toLocaleString('en')} lines, ${skipped.toLocaleString('en')} bytes skipped`;
}

async function countReads(chunks: AsyncIterable<Uint8Array>): Promise<string> {
  let reads = 0;
  let exact = 0;
  for await (const read of streamReads(chunks)) {
    reads++;
    if (read.integrity.state === 'exact') exact++;
  }
  return `${reads.toLocaleString('en')} reads, ${exact.toLocaleString('en')} of exact integrity`;
}

/** Whether memory stays flat over files far larger than it. They are made in the system's temporary folder, and removed. */
export async function benchMemory(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'coilbook-bench-'));
  const joined = join(folder, 'joined');
  const sparse = join(folder, 'sparse');
  const rows: string[][] = [];
  const stream = async (
    name: string,
    path: string,
    take: (chunks: AsyncIterable<Uint8Array>) => Promise<string>,
  ): Promise<void> => {
    const file = new WatchedFile(path);
    const start = performance.now();
    const result = await take(file.chunks());
    const seconds = (performance.now() - start) / 1000;
    const speed = (file.bytes / 1e6 / seconds).toFixed(0);
    rows.push([name, (file.bytes / GIGABYTE).toFixed(1), speed, file.peakMegabytes.toFixed(0), result]);
  };
  try {
    await writeJoined(joined, 2 * GIGABYTE);
    await writeSparse(sparse, 5 * GIGABYTE);
    await stream('joined captures, segments', joined, countSegments);
    await stream('sparse file, segments', sparse, countSegments);
    await stream('joined captures, reads', joined, countReads);
    await stream('sparse file, reads', sparse, countReads);
  } finally {
    await rm(folder, { recursive: true });
  }
  return writeTable(['file', 'GB', 'MB/s', 'MB more at most', 'found'], rows);
}
