import { Readable } from 'node:stream';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { SEGMENT } from '../../src/dictionary/index.js';
import { parseSegments, type SegmentBlock, streamSegments } from '../../src/segments/index.js';
import { buildCapture } from '../support/build-capture.js';
import { joinCaptures } from '../support/latin1-bytes.js';
import { factsOf } from './reference-lines.js';

const CAPTURE = buildCapture(Array.from({ length: 45 }, (_, i) => `PA1*${i + 1}*150\r\nPA2*${i}*${i * 150}*3*450`));
const MEGABYTE = 2 ** 20;
/** Far above what is held, far below what streams through. */
const FLAT = 60 * MEGABYTE;

async function collect(blocks: AsyncIterable<SegmentBlock>): Promise<SegmentBlock[]> {
  const collected: SegmentBlock[] = [];
  for await (const block of blocks) collected.push(block);
  return collected;
}

describe('streamSegments', () => {
  it('gives what parseSegments gives, from a Node stream, a web stream or a list of chunks', async () => {
    const chunks = [CAPTURE.subarray(0, 100), CAPTURE.subarray(100, 101), CAPTURE.subarray(101)];
    const expected = factsOf(parseSegments(CAPTURE));
    expect(factsOf(await collect(streamSegments(Readable.from(chunks))))).toEqual(expected);
    expect(factsOf(await collect(streamSegments(new Blob(chunks as BlobPart[]).stream())))).toEqual(expected);
    expect(factsOf(await collect(streamSegments(chunks)))).toEqual(expected);
    const limited = factsOf(parseSegments(CAPTURE, { longestSegment: 8 }));
    expect(factsOf(await collect(streamSegments(chunks, { longestSegment: 8 })))).toEqual(limited);
  });

  it('fails as its source fails, after the lines that came whole', async () => {
    const seen: number[] = [];
    async function* failing(): AsyncGenerator<Uint8Array> {
      yield CAPTURE;
      throw new Error('unplugged');
    }
    const run = async (): Promise<void> => {
      for await (const block of streamSegments(failing())) seen.push(block.lineCount);
    };
    await expect(run()).rejects.toThrow('unplugged');
    expect(seen).not.toEqual([]);
  });
});

describe('memory', () => {
  setFlagsFromString('--expose-gc');
  const collectGarbage = runInNewContext('gc') as () => void;
  const used = (): number => {
    // Twice: memory of buffers found unused by the first is given back by the second at the latest.
    collectGarbage();
    collectGarbage();
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    return heapUsed + arrayBuffers;
  };

  async function measureGrowth(
    chunks: AsyncIterable<Uint8Array>,
  ): Promise<{ bytes: number; sets: number; growth: number }> {
    const before = used();
    let [bytes, sets, growth, sinceMeasured] = [0, 0, 0, 0];
    for await (const block of streamSegments(chunks)) {
      for (let line = 0; line < block.lineCount; line++) if (block.kind(line) === SEGMENT.G85.index) sets++;
      const size = block.next(block.lineCount - 1) - block.start(0);
      bytes += size;
      sinceMeasured += size;
      if (sinceMeasured < 20 * MEGABYTE) continue;
      sinceMeasured = 0;
      growth = Math.max(growth, used() - before);
    }
    return { bytes, sets, growth: Math.max(growth, used() - before) };
  }

  it('stays flat over 200 MB of joined captures', async () => {
    const day = joinCaptures(...Array.from({ length: 100 }, () => CAPTURE));
    const days = Math.ceil((200 * MEGABYTE) / day.length);
    async function* stream(): AsyncGenerator<Uint8Array> {
      // Chunks that end inside lines, each in memory of its own as a file gives them.
      for (let i = 0; i < days; i++) {
        yield day.slice(0, 70_001);
        yield day.slice(70_001);
      }
    }
    const { bytes, sets, growth } = await measureGrowth(stream());
    expect(bytes).toBe(days * day.length);
    expect(sets).toBe(days * 100);
    expect(growth).toBeLessThan(FLAT);
  });

  it('stays flat over one line of 200 MB', async () => {
    async function* stream(): AsyncGenerator<Uint8Array> {
      for (let i = 0; i < 200; i++) yield new Uint8Array(MEGABYTE).fill(0x39);
    }
    const before = used();
    const [block, ...more] = await collect(streamSegments(stream()));
    expect(more).toEqual([]);
    expect(block?.parts.skips).toEqual([{ at: 65_536, length: 200 * MEGABYTE - 65_536, line: 0 }]);
    expect(used() - before).toBeLessThan(FLAT);
  });
});
