import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hashLeaf, TreeFront } from '../../../../src/book/merkle/index.js';
import type { EntryToRecord, JsonValue } from '../../../../src/book/store/index.js';
import { writeLeafText } from '../../../../src/book/store/index.js';
import {
  gather,
  makeCapture,
  makeCount,
  makeRead,
  openBook,
  RECORDED_AT,
  sha256Of,
  temporaryPath,
} from '../temporary-book.js';

const PUBLISHED_EMPTY_ROOT = 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855';

describe('recordEntries', () => {
  it('gives the numbers in order, and the head after them', async () => {
    const book = await openBook();
    // The root of the empty tree, RFC 6962, section 2.1.
    expect(await book.head()).toEqual({ size: 0, root: PUBLISHED_EMPTY_ROOT });
    const outcome = await book.recordEntries([makeCount('bag 1'), makeCount('bag 2')]);
    expect(outcome).toEqual({
      state: 'done',
      entries: [
        { state: 'recorded', seq: 0 },
        { state: 'recorded', seq: 1 },
      ],
      head: await book.head(),
    });
  });

  it('has the root that follows from the texts of the entries', async () => {
    const book = await openBook();
    for (let i = 0; i < 9; i++) await book.recordEntries([makeCount(`bag ${i}`)]);
    let front = TreeFront.EMPTY;
    for await (const entry of book.entries()) front = front.append(hashLeaf(writeLeafText(entry))).front;
    expect(await book.head()).toEqual({ size: 9, root: Buffer.from(front.root()).toString('hex') });
  });

  it('does not record a key twice, whatever the body says', async () => {
    const book = await openBook();
    await book.recordEntries([makeCount('bag 1')]);
    const outcome = await book.recordEntries([makeCount('bag 1', { body: { coins: 9 } }), makeCount('bag 2')]);
    expect(outcome).toMatchObject({
      entries: [
        { state: 'already', seq: 0 },
        { state: 'recorded', seq: 1 },
      ],
    });
    expect((await book.entry(0))?.body).toContain('1250');
  });

  it('adds nothing when the book is no longer what it rests on', async () => {
    const book = await openBook();
    await book.recordEntries([makeCount('bag 1')]);
    expect(await book.recordEntries([makeCount('bag 2')], 0)).toEqual({ state: 'moved-on', head: await book.head() });
    expect(await book.recordEntries([makeCount('bag 2')], 1)).toMatchObject({ state: 'done', head: { size: 2 } });
  });

  it.each<[string, Partial<EntryToRecord>]>([
    ['a body that JSON can not say', { body: { coins: Number.NaN } }],
    ['no instant', { recordedAt: '24.11.2026' }],
    ['no instant in UTC', { recordedAt: '2026-11-24T22:15:00+01:00' }],
    ['what refers to a later entry', { refersTo: 1 }],
    ['what refers to no entry', { refersTo: -1 }],
  ])('refuses %s, and then records none of them', async (_, changes) => {
    const book = await openBook();
    await expect(book.recordEntries([makeCount('bag 1'), makeCount('bag 2', changes)])).rejects.toThrow();
    expect(await book.head()).toEqual({ size: 0, root: PUBLISHED_EMPTY_ROOT });
    await book.recordEntries([makeCount('bag 3')]);
    expect((await book.entry(0))?.key).toBe('bag 3');
  });

  it('keeps any body as canonical JSON', async () => {
    const book = await openBook();
    await fc.assert(
      fc.asyncProperty(fc.jsonValue(), async (body) => {
        const outcome = await book.recordEntries([
          { kind: 'adjustment', recordedAt: RECORDED_AT, body: body as JsonValue },
        ]);
        const seq = outcome.state === 'done' ? outcome.entries[0]!.seq : -1;
        expect(JSON.parse((await book.entry(seq))!.body)).toEqual(JSON.parse(JSON.stringify(body)));
      }),
      { numRuns: 50 },
    );
  });
});

describe('recordCaptures', () => {
  it('keeps a file, its entry, its reads and where it lay', async () => {
    const book = await openBook();
    const file = { path: '/in/a.dex', size: 5, modifiedMs: 1.5, changedMs: 2.25 };
    const capture = makeCapture('hello', { name: 'in/a.dex', facts: { reason: 'scheduled' }, file });
    expect(await book.recordCaptures([capture])).toEqual([{ state: 'recorded', entry: 0, duplicates: [] }]);
    const entry = (await book.entry(0))!;
    expect(entry).toMatchObject({ kind: 'capture-taken', recordedAt: RECORDED_AT, key: null, refersTo: null });
    expect(JSON.parse(entry.body)).toEqual({
      facts: { reason: 'scheduled' },
      file: 'in/a.dex',
      isKept: true,
      reads: 1,
      readsSha256: (await book.piecesOf(0)).reads.sha256,
      // SHA-256 of "hello", as any tool gives it.
      sha256: '2cf24dba5fb0a30e26e83b2ac5b9e29e1b161e5c1fa7425e73043362938b9824',
      size: 5,
    });
    expect(Buffer.from((await book.bytesOf(capture.sha256))!).toString()).toBe('hello');
    expect(await book.findCapture(capture.sha256)).toEqual({ entry: 0, kind: 'capture-taken', isKept: true });
    expect(await book.seenFiles([file])).toEqual([0]);
    expect(await gather(book.reads())).toMatchObject([{ entry: 0, number: 0, sha256: capture.sha256 }]);
  });

  it('takes the same bytes once, and knows their copies', async () => {
    const book = await openBook();
    const copy = { path: '/in/b.dex', size: 5, modifiedMs: 1, changedMs: 1 };
    const outcomes = await book.recordCaptures([makeCapture('hello'), makeCapture('hello', { name: 'b', file: copy })]);
    expect(outcomes[1]).toEqual({ state: 'already', entry: 0 });
    expect(await book.recordCaptures([makeCapture('hello', { kind: 'set-aside', reads: [] })])).toEqual([
      { state: 'already', entry: 0 },
    ]);
    expect(await book.seenFiles([copy])).toEqual([0]);
    expect(await book.tally()).toMatchObject({ entries: 1, blobs: 1, reads: 1 });
  });

  it('tells which reads it had before, under the same machine only', async () => {
    const book = await openBook();
    await book.recordCaptures([makeCapture('a', { reads: [makeRead('same'), makeRead('other', { number: 1 })] })]);
    const again = [
      makeRead('same'),
      makeRead('same', { number: 1, machine: 'machine M-2' }),
      makeRead('same', { number: 2, machine: null }),
      makeRead('same', { number: 3 }),
    ];
    const [outcome] = await book.recordCaptures([makeCapture('b', { reads: again })]);
    expect(outcome).toEqual({
      state: 'recorded',
      entry: 1,
      duplicates: [
        { number: 0, of: { entry: 0, number: 0 } },
        { number: 3, of: { entry: 0, number: 0 } },
      ],
    });
    const duplicates = await gather(book.reads({ isDuplicate: true }));
    expect(duplicates.map(({ entry, number }) => [entry, number])).toEqual([
      [1, 0],
      [1, 3],
    ]);
  });

  it('takes in a file that was set aside, once it can be read, without its bytes a second time', async () => {
    const book = await openBook();
    await book.recordCaptures([makeCapture('odd', { kind: 'set-aside', reads: [] })]);
    await book.recordEntries([makeCount('bag 1')]);
    expect(await book.recordCaptures([makeCapture('odd')])).toEqual([{ state: 'recorded', entry: 2, duplicates: [] }]);
    expect(await book.entry(2)).toMatchObject({ kind: 'capture-taken', refersTo: 0 });
    expect(await book.findCapture(sha256Of('odd'))).toEqual({ entry: 2, kind: 'capture-taken', isKept: true });
    expect(await gather(book.reads())).toMatchObject([{ entry: 2, sha256: sha256Of('odd') }]);
    expect(await book.recordCaptures([makeCapture('odd')])).toEqual([{ state: 'already', entry: 2 }]);
    expect(await book.tally()).toMatchObject({ entries: 3, blobs: 1 });
  });

  it('records a file too large to keep without its bytes, once, and with them when it is taken in after all', async () => {
    const book = await openBook();
    const huge = makeCapture('huge', { kind: 'set-aside', bytes: null, reads: [] });
    expect(await book.recordCaptures([huge, huge])).toEqual([
      { state: 'recorded', entry: 0, duplicates: [] },
      { state: 'already', entry: 0 },
    ]);
    expect(await book.findCapture(huge.sha256)).toEqual({ entry: 0, kind: 'set-aside', isKept: false });
    expect(await book.bytesOf(huge.sha256)).toBeNull();
    expect(await gather(book.partsOf(huge.sha256))).toEqual([]);
    expect(await book.recordCaptures([makeCapture('huge')])).toMatchObject([{ state: 'recorded', entry: 1 }]);
    expect(await book.findCapture(huge.sha256)).toEqual({ entry: 1, kind: 'capture-taken', isKept: true });
    expect(await book.recordCaptures([makeCapture('huge')])).toEqual([{ state: 'already', entry: 1 }]);
    await expect(book.recordCaptures([makeCapture('x', { bytes: null })])).rejects.toThrow(RangeError);
  });

  it('does not find what it does not have', async () => {
    const book = await openBook();
    expect(await book.findCapture(sha256Of('never'))).toBeNull();
    expect(await book.bytesOf(sha256Of('never'))).toBeNull();
  });

  it('goes on with the tree that another connection has left', async () => {
    const path = temporaryPath();
    const [one, two] = [await openBook(path), await openBook(path)];
    for (let i = 0; i < 7; i++) {
      await one.recordEntries([makeCount(`one ${i}`)]);
      await two.recordCaptures([makeCapture(`two ${i}`)]);
    }
    let front = TreeFront.EMPTY;
    for await (const entry of one.entries()) front = front.append(hashLeaf(writeLeafText(entry))).front;
    expect(await one.head()).toEqual({ size: 14, root: Buffer.from(front.root()).toString('hex') });
    expect(await two.head()).toEqual(await one.head());
  });
});
