import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { checkCapture } from '../../../src/checks/index.js';
import { checkSentFile, READS_A_PART, readSentFile } from '../../../src/driver/desk/check-sent-file.js';
import { FileProblem, isPacked, readBytes, readFileChunks } from '../../../src/driver/desk/file-chunks.js';
import { comparePaths } from '../../../src/driver/desk/order-files.js';
import { groupFiles, readTogether } from '../../../src/driver/desk/read-together.js';
import { READS_A_PART as READS_OF_COMMAND } from '../../../src/io/check-file.js';
import { buildCapture, joinCaptures } from '../../support/build-capture.js';

const GOOD = buildCapture(['ID1*S1*M1****A1', 'ID4*2*978*EUR', 'CB1*B1', 'VA1*100*1']);
/** A file that the browser may not read any more. */
const GONE = new Blob(['x']);
Object.assign(GONE, { arrayBuffer: () => Promise.reject(new Error('gone')), slice: () => GONE });

async function gather(chunks: AsyncIterable<Uint8Array>): Promise<Buffer> {
  const parts: Uint8Array[] = [];
  for await (const chunk of chunks) parts.push(chunk);
  return Buffer.concat(parts);
}

describe('readFileChunks', () => {
  const large = Buffer.from(Array.from({ length: 2_500_000 }, (_, i) => i % 251));

  it('gives a file piece by piece, whole', async () => {
    expect((await gather(readFileChunks(new Blob([large])))).equals(large)).toBe(true);
    expect((await gather(readFileChunks(new Blob([])))).length).toBe(0);
  });

  it('does not read what is known already', async () => {
    expect(await gather(readFileChunks(GONE, GOOD))).toEqual(Buffer.from(GOOD));
  });

  it('unpacks gzip (RFC 1952), known or not', async () => {
    const packed = gzipSync(large);
    expect(isPacked(packed)).toBe(true);
    expect((await gather(readFileChunks(new Blob([packed])))).equals(large)).toBe(true);
    expect((await gather(readFileChunks(new Blob([packed]), packed))).equals(large)).toBe(true);
  });

  it('says why it can not go on: no longer there, damaged, too large unpacked, no means to unpack', async () => {
    const packed = gzipSync(large);
    await expect(gather(readFileChunks(GONE))).rejects.toThrow(FileProblem);
    await expect(gather(readFileChunks(new Blob([packed.subarray(0, 900)])))).rejects.toThrow('damaged or cut short');
    await expect(gather(readFileChunks(new Blob([packed]), null, 2 * 1024 * 1024))).rejects.toThrow('more than 2 MB');
    const { DecompressionStream: own } = globalThis;
    Reflect.deleteProperty(globalThis, 'DecompressionStream');
    await expect(gather(readFileChunks(new Blob([packed])))).rejects.toThrow('can not unpack');
    Object.assign(globalThis, { DecompressionStream: own });
  });
});

describe('readTogether', () => {
  it('gives the bytes of each file, also of an empty one', async () => {
    const read = await readTogether([new Blob(['one']), new Blob([]), new Blob(['three'])]);
    expect(read.map((bytes) => Buffer.from(bytes!).toString())).toEqual(['one', '', 'three']);
  });

  it('gives the others where one can not be read', async () => {
    // A file that says another size than it has stands for one that changed meanwhile.
    const changed = new Blob(['four']);
    Object.defineProperty(changed, 'size', { value: 9 });
    expect((await readTogether([new Blob(['one']), changed, GONE])).map((bytes) => bytes?.length)).toEqual([
      3,
      4,
      undefined,
    ]);
    await expect(readBytes(GONE)).rejects.toThrow(FileProblem);
  });
});

describe('groupFiles', () => {
  it('keeps the order, and makes groups small enough to be read in one go', () => {
    const sizes = [...Array(100).fill(10), 9_000_000, 5_000_000, 5_000_000, 1];
    const groups = groupFiles(sizes, (size) => size);
    expect(groups.flat()).toEqual(sizes);
    expect(groups.map(({ length }) => length)).toEqual([64, 36, 1, 1, 2]);
    expect(groupFiles([], () => 1)).toEqual([]);
  });
});

describe('comparePaths', () => {
  it('orders as a walk through folders meets the files', () => {
    const paths = ['b', 'a/z', 'a', 'a/b/c', 'a-1', 'a/b', 'B'];
    expect(paths.sort(comparePaths)).toEqual(['B', 'a', 'a/b', 'a/b/c', 'a/z', 'a-1', 'b']);
  });
});

describe('checkSentFile', () => {
  it('says of a file what the library says of its bytes', async () => {
    for (const bytes of [GOOD, GOOD.slice(0, 40), new Uint8Array(), joinCaptures(GOOD, GOOD)]) {
      let reads = 0;
      const [part, ...more] = await checkSentFile('a.dex', new Blob([bytes.slice()]), {}, () => reads++);
      expect(part).toEqual({ ...checkCapture('a.dex', bytes), firstRead: 0 });
      expect([more, reads]).toEqual([[], part!.reads.length]);
    }
  });

  it('cuts a file with very many reads in the same parts as the command', async () => {
    expect(READS_A_PART).toBe(READS_OF_COMMAND);
    const bytes = Buffer.concat(Array<Uint8Array>(READS_A_PART + 1).fill(buildCapture(['ID1*S1*M1', 'VA1*1*1'])));
    const parts = await checkSentFile('many.dex', new Blob([bytes]), {}, () => undefined);
    expect(parts.map(({ firstRead, reads }) => [firstRead, reads.length])).toEqual([
      [0, READS_A_PART],
      [READS_A_PART, 1],
    ]);
  });

  it('says of a file that can not be read that it was not', async () => {
    const [part] = await checkSentFile('<b>.dex', GONE, {}, () => undefined);
    expect(part).toMatchObject({ verdict: 'read-again', findings: [{ code: 'unreadable-file', file: '<b>.dex' }] });
  });

  it('ends early where nobody wants to know any more', async () => {
    let asked = 0;
    let reads = 0;
    const large = new Blob([Buffer.concat(Array<Uint8Array>(40_000).fill(GOOD))]);
    await readSentFile('a.dex', large, () => reads++, { isWanted: () => ++asked < 3 });
    expect([asked, reads > 0, reads < 40_000]).toEqual([3, true, true]);
  });

  it('hides no defect', async () => {
    const fail = () => {
      throw new TypeError('a defect');
    };
    await expect(readSentFile('a.dex', new Blob([GOOD.slice()]), fail)).rejects.toThrow('a defect');
  });
});
