import { describe, expect, it } from 'vitest';
import { verifyBook } from '../../../src/book/verify-book.js';
import { makeFolder } from '../../io/temporary-folder.js';
import { gather, openBook, temporaryPath } from '../store/temporary-book.js';
import { LOW_LIMITS, mixedFiles } from './mixed-folder.js';
import { takeFolder } from './run-intake.js';

const FILES = 84;

describe('a book that can not be written', () => {
  it('when the disk is full keeps what was recorded, and is completed by the next run', async () => {
    const folder = makeFolder(mixedFiles(FILES));
    const unfailing = await openBook();
    await takeFolder(unfailing, folder, { limits: LOW_LIMITS });
    const path = temporaryPath();
    const full = await openBook(path, { create: true, largestBytes: 130_000 });
    await expect(takeFolder(full, folder, { limits: LOW_LIMITS })).rejects.toMatchObject({
      name: 'BookError',
      kind: 'disk-full',
      message: expect.stringContaining('Make room and run the same again'),
    });
    const { size } = await full.head();
    expect(size).toBeGreaterThan(0);
    expect(size).toBeLessThan((await unfailing.head()).size);
    expect((await verifyBook(full)).fault).toBeNull();
    await full.close();
    const roomy = await openBook(path);
    await takeFolder(roomy, folder, { limits: LOW_LIMITS });
    expect(await roomy.head()).toEqual(await unfailing.head());
    expect(await gather(roomy.reads())).toEqual(await gather(unfailing.reads()));
    expect((await verifyBook(roomy)).fault).toBeNull();
  });

  it('because it is read-only is left as it is', async () => {
    const folder = makeFolder(mixedFiles(30));
    const path = temporaryPath();
    const book = await openBook(path);
    await takeFolder(book, makeFolder(mixedFiles(8)), { limits: LOW_LIMITS });
    const head = await book.head();
    const readOnly = await openBook(path, { isReadOnly: true });
    await expect(takeFolder(readOnly, folder, { limits: LOW_LIMITS })).rejects.toMatchObject({ kind: 'read-only' });
    expect(await readOnly.head()).toEqual(head);
    await takeFolder(book, folder, { limits: LOW_LIMITS });
    expect((await book.head()).size).toBeGreaterThan(head.size);
    expect((await verifyBook(book)).fault).toBeNull();
  });
});
