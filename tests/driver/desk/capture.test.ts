import { describe, expect, it } from 'vitest';
import { type Capture, type Known, openEach, readEach, writeLocalTime } from '../../../src/driver/desk/capture.js';
import { checkSentFile } from '../../../src/driver/desk/check-sent-file.js';
import { SMALL_FILE } from '../../../src/driver/desk/read-together.js';
import { compareWithOthers, openCapture } from '../../../src/driver/desk/view-capture.js';
import { Roster } from '../../../src/sheets/index.js';
import { buildCapture } from '../../support/build-capture.js';

const KNOWN: Known = { roster: new Roster(), fileTime: null };
const captureOf = (asset: string, vends: number): Uint8Array =>
  buildCapture([`ID1*S*M****${asset}`, `VA1*${vends}*${vends}`]);

async function openAs(path: string, bytes: Uint8Array, ...keys: readonly string[]): Promise<Capture> {
  const file = new File([new Uint8Array(bytes)], path);
  const parts = await checkSentFile(path, file, {}, () => undefined);
  return { path, file, parts, keys: new Set(keys) };
}

describe('openEach', () => {
  it('gives small files with their bytes, and those beside a large one to be read in pieces', async () => {
    const small = { path: 'a', file: new File(['abc'], 'a') };
    const large = { path: 'b', file: new File([new Uint8Array(SMALL_FILE + 1)], 'b') };
    const opened: unknown[] = [];
    for await (const [{ path }, known] of openEach([small])) opened.push([path, known?.length]);
    for await (const [{ path }, known] of openEach([small, large])) opened.push([path, known?.length]);
    expect(opened).toEqual([
      ['a', 3],
      ['a', undefined],
      ['b', undefined],
    ]);
  });
});

describe('readEach', () => {
  it('gives every read with its capture, in order', async () => {
    const both = [await openAs('a', captureOf('A1', 1)), await openAs('b', captureOf('A2', 2))];
    const seen: string[] = [];
    await readEach(both, ({ path }, { machine }) => seen.push(`${path} ${machine.asset}`));
    expect(seen).toEqual(['a A1', 'b A2']);
  });
});

describe('openCapture and compareWithOthers', () => {
  it('describe a read, then what happened since the one before', async () => {
    const before = await openAs('a', captureOf('A1', 5), 'asset A1');
    const capture = await openAs('b', captureOf('A1', 9), 'asset A1');
    const other = await openAs('c', captureOf('A2', 9), 'asset A2');
    const { view, taken } = await openCapture({ id: 1, capture, read: 0 }, KNOWN);
    expect(view).toMatchObject({ id: 1, readCount: 1, between: null, check: { file: 'b' } });
    const all = [before, capture, other];
    const between = await compareWithOthers({ capture }, taken!, all, () => KNOWN);
    expect(between.intervals.map(({ from, to }) => [from.file, to.file])).toEqual([['a', 'b']]);
  });

  it('know of nothing to compare where the read, or its machine, is not there', async () => {
    const capture = await openAs('a', buildCapture(['ID1', 'VA1*1*1']));
    expect((await openCapture({ id: 0, capture, read: 7 }, KNOWN)).taken).toBeNull();
    const { taken } = await openCapture({ id: 0, capture, read: 0 }, KNOWN);
    expect(await compareWithOthers({ capture }, taken!, [capture], () => KNOWN)).toMatchObject({ intervals: [] });
  });
});

describe('writeLocalTime', () => {
  it('gives a moment as a clock on the wall shows it', () => {
    expect(writeLocalTime(new Date(2026, 0, 2, 3, 4, 5))).toBe('2026-01-02T03:04:05');
  });
});
