import { expect, it } from 'vitest';
import { notedHead } from '../../src/cli/noted-head.js';

it('takes a head only whole', () => {
  expect(notedHead({})).toBeNull();
  expect(notedHead({ size: 1, root: 'ab' })).toEqual({ size: 1, root: 'ab' });
  expect(() => notedHead({ size: 1 })).toThrow('together');
  expect(() => notedHead({ root: 'ab' })).toThrow('together');
});
