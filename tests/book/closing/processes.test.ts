import { beforeAll, describe, expect, it } from 'vitest';
import { closingsOf, recordAdjustments } from '../../../src/book/closing/index.js';
import { verifyBook } from '../../../src/book/verify-book.js';
import { buildScript, Child } from '../store/child-process.js';
import { openBook, temporaryPath } from '../store/temporary-book.js';
import {
  BAG,
  close,
  DAY,
  entriesOf,
  fillPlain,
  KIM,
  OPENING,
  onlyRound,
  RECORDED,
  takeIn,
  VISIT,
} from './fill-book.js';

let script: string;
beforeAll(async () => {
  script = await buildScript('../closing/close-day.ts');
});

const NEXT = '2026-11-25';

describe('a closing in a process of its own', () => {
  it('leaves nothing when it is killed in the middle, and is whole when run again', async () => {
    const path = temporaryPath();
    const book = await openBook(path);
    await fillPlain(book);
    const before = await book.head();
    const child = new Child(script, [path, DAY, 480, 'Kim', 'hold']);
    expect(await child.nextLine()).toBe('in the middle');
    await child.kill();
    expect(await book.head()).toEqual(before);
    expect(await entriesOf(book, 'count-entered', 'settlement-closed')).toEqual([]);
    const again = new Child(script, [path, DAY, 480, 'Kim']);
    expect(JSON.parse((await again.nextLine())!)).toEqual({ ...RECORDED, counts: 1, closed: 1 });
    expect(await again.status()).toBe(0);
    expect((await verifyBook(book)).fault).toBeNull();
    expect((await onlyRound(book)).inBook).toMatchObject({ closing: { entry: 3, by: 'Kim' }, pending: [] });
  });

  it('is one of many at once: one closes, the others find it closed', async () => {
    const path = temporaryPath();
    const book = await openBook(path);
    await fillPlain(book);
    const names = ['Kim', 'Lee', 'Ana', 'Bo'];
    const children = names.map((by) => new Child(script, [path, DAY, 480, by]));
    const lines = await Promise.all(children.map((child) => child.nextLine()));
    const closed = lines.map((line) => (JSON.parse(line!) as { closed: number }).closed);
    expect(closed.reduce((sum, one) => sum + one, 0)).toBe(1);
    expect(await Promise.all(children.map((child) => child.status()))).toEqual([0, 0, 0, 0]);
    const [closing, ...others] = await closingsOf(book, { day: DAY });
    expect(others).toEqual([]);
    expect(closing!.by).toBe(names[closed.indexOf(1)]);
    expect(await entriesOf(book, 'count-entered')).toHaveLength(1);
    expect((await verifyBook(book)).fault).toBeNull();
  });

  it('carries an adjustment once, though two days are closed at the same time', async () => {
    const path = temporaryPath();
    const book = await openBook(path);
    await takeIn(book, 'monday.dex', OPENING);
    await close(book, [BAG], {}, { anyway: 'the capture is still to come' });
    await takeIn(book, 'tuesday.dex', VISIT);
    await takeIn(book, 'wednesday.dex', { at: `${NEXT}T10:00`, reason: 'service', box: 900, bills: 2000 });
    await takeIn(book, 'thursday.dex', { at: '2026-11-26T10:00', reason: 'service', box: 1300, bills: 3000 });
    expect(await recordAdjustments(book, { recordedAt: () => KIM.recordedAt })).toHaveLength(1);
    const children = [NEXT, '2026-11-26'].map((day) => new Child(script, [path, day, 400, 'Kim']));
    expect(await Promise.all(children.map((child) => child.status()))).toEqual([0, 0]);
    const carried = (await entriesOf(book, 'adjustment-carried')).map(({ refersTo }) => refersTo);
    const adjustments = (await entriesOf(book, 'adjustment')).map(({ seq }) => seq);
    expect(adjustments).toHaveLength(1);
    expect(carried).toEqual(adjustments);
    expect((await verifyBook(book)).fault).toBeNull();
  });
});
