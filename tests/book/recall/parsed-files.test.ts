import { describe, expect, it } from 'vitest';
import { ParsedFiles, readFileEntry } from '../../../src/book/recall/index.js';
import type { BookStore } from '../../../src/book/store/index.js';
import { fillPlain } from '../closing/fill-book.js';
import { openBook } from '../store/temporary-book.js';

/** A store that gives other bytes than were recorded: of the same length, with one digit that is another. */
function spoiled(store: BookStore): BookStore {
  const spoil = (bytes: Uint8Array): Uint8Array => {
    const at = Buffer.from(bytes).indexOf('CA3*') + 5;
    return bytes.with(at, bytes[at] === 0x31 ? 0x32 : 0x31);
  };
  return new Proxy(store, {
    get(target, name) {
      if (name === 'bytesOf') return async (sha256: string) => spoil((await target.bytesOf(sha256))!);
      if (name === 'partsOf')
        return async function* (sha256: string) {
          for await (const part of target.partsOf(sha256)) yield spoil(part);
        };
      const value = Reflect.get(target, name) as unknown;
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });
}

describe('ParsedFiles', () => {
  it('takes no bytes that are not those recorded, of a small file or a large one', async () => {
    const store = await openBook();
    await fillPlain(store);
    const file = readFileEntry((await store.entry(0))!);
    expect((await new ParsedFiles(store).whole(file)).reads).toHaveLength(1);
    const large = { ...file, size: 5 * 1024 * 1024 };
    expect((await new ParsedFiles(store).pick(large, new Set([0]))).size).toBe(1);
    const refused = { kind: 'corrupted', message: expect.stringContaining('not those that were recorded') };
    await expect(new ParsedFiles(spoiled(store)).whole(file)).rejects.toMatchObject(refused);
    await expect(new ParsedFiles(spoiled(store)).pick(large, new Set([0]))).rejects.toMatchObject(refused);
    await expect(new ParsedFiles(spoiled(store)).readsOf(large).next()).rejects.toMatchObject(refused);
  });
});
