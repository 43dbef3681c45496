import { describe, expect, it } from 'vitest';
import { groupBy } from '../../src/model/index.js';

describe('groupBy', () => {
  it('keeps the order in which keys come first', () => {
    expect([...groupBy([3, 1, 5, 2], (one) => one % 2)]).toEqual([
      [1, [3, 1, 5]],
      [0, [2]],
    ]);
  });
});
