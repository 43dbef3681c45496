import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { bookHeadSchema, bookProofSchema, captureBodySchema } from '../../src/book/shapes.js';
import { makeCapture, openBook } from './store/temporary-book.js';

const HASH = 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855';

describe('the shapes of the book', () => {
  it('take a head as the book gives it', async () => {
    const book = await openBook();
    expect(bookHeadSchema.parse(await book.head())).toEqual({ size: 0, root: HASH });
  });

  it.each([
    ['a size below zero', { size: -1, root: HASH }],
    ['a size with a fraction', { size: 0.5, root: HASH }],
    ['a size that is a text', { size: '1', root: HASH }],
    ['a hash in capitals', { size: 1, root: HASH.toUpperCase() }],
    ['a hash cut short', { size: 1, root: HASH.slice(1) }],
    ['no root', { size: 1 }],
  ])('refuse a head with %s', (_, head) => {
    expect(bookHeadSchema.safeParse(head).success).toBe(false);
  });

  it('take the body of every entry of a file', async () => {
    const book = await openBook();
    await book.recordCaptures([
      makeCapture('a', { facts: { listed: { signal: 12, bag: null } } }),
      makeCapture('b', { kind: 'set-aside', bytes: null, reads: [] }),
    ]);
    for await (const { body } of book.entries()) {
      const data: unknown = JSON.parse(body);
      expect(captureBodySchema.parse(data)).toEqual(data);
    }
  });

  it('can be written as JSON Schema', () => {
    expect(z.toJSONSchema(bookProofSchema)).toMatchObject({ oneOf: [{ type: 'object' }, { type: 'object' }] });
    expect(z.toJSONSchema(captureBodySchema)).toMatchObject({ type: 'object' });
  });
});
