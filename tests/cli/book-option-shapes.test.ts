import { expect, it } from 'vitest';
import { bookProofShape, bookVerifyShape } from '../../src/cli/book-option-shapes.js';

it('reads numbers and roots as they are written', () => {
  expect(bookProofShape.parse({ from: '12' })).toEqual({ book: 'coilbook.db', from: 12 });
  expect(bookVerifyShape.parse({ size: '3', root: 'AB'.repeat(32), book: 'x.db' })).toEqual({
    book: 'x.db',
    json: false,
    deep: false,
    putBack: false,
    size: 3,
    root: 'ab'.repeat(32),
  });
  expect(bookProofShape.safeParse({ from: '1e3' }).success).toBe(false);
});
