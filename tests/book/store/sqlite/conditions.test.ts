import { describe, expect, it } from 'vitest';
import { Conditions } from '../../../../src/book/store/sqlite/conditions.js';

describe('Conditions', () => {
  it('has no clause without conditions', () => {
    const where = new Conditions().add('a = ?', undefined).addOneOf('b', undefined);
    expect(where.sql).toBe('');
    expect(where.values).toEqual([]);
  });

  it('joins conditions in order, each in brackets, and binds every value', () => {
    const where = new Conditions()
      .add('a = ?', 1)
      .add('b IS ?', null)
      .addOneOf('c', ['x', "y'; DROP TABLE entry; --"])
      .always('d IS NULL OR e > 1');
    expect(where.sql).toBe('WHERE (a = ?) AND (b IS ?) AND (c IN (?, ?)) AND (d IS NULL OR e > 1)');
    expect(where.values).toEqual([1, null, 'x', "y'; DROP TABLE entry; --"]);
  });
});
