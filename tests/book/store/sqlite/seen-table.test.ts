import { describe, expect, it } from 'vitest';
import type { FileFacts } from '../../../../src/book/store/index.js';
import { makeCapture, openBook } from '../temporary-book.js';

const file: FileFacts = { path: '/in/a\n\u001b[2J.dex', size: 5e9, modifiedMs: 1732443300123.456, changedMs: 1.25 };

describe('files seen before', () => {
  it('are known by path, size and both times', async () => {
    const book = await openBook();
    await book.recordCaptures([makeCapture('a', { file })]);
    const others: FileFacts[] = [
      { ...file, path: '/in/b.dex' },
      { ...file, size: file.size + 1 },
      { ...file, modifiedMs: file.modifiedMs + 0.001 },
      { ...file, changedMs: 1.5 },
    ];
    expect(await book.seenFiles([file, ...others])).toEqual([0, null, null, null, null]);
  });

  it('are known as what they were last', async () => {
    const book = await openBook();
    await book.recordCaptures([makeCapture('a', { file }), makeCapture('b')]);
    const touched = { ...file, modifiedMs: 9 };
    await book.markSeen([{ file: touched, entry: 1 }]);
    expect(await book.seenFiles([file, touched])).toEqual([null, 1]);
  });
});
