import { describe, expect, it } from 'vitest';
import { makeCells, makeParquetSchema, type ParquetColumn } from '../../../src/book/export/parquet-table.js';

type Value = string | number | null;
const column = (type: ParquetColumn<Value>['type']): ParquetColumn<Value> => ({
  name: 'x',
  type,
  of: (value) => value,
});

describe('makeCells', () => {
  it('keeps null as null in every type', () => {
    for (const type of ['integer', 'small', 'text', 'time'] as const)
      expect(makeCells(column(type), [null])).toEqual([null]);
  });

  it('stores whole numbers exactly, and refuses all others', () => {
    expect(makeCells(column('integer'), [Number.MAX_SAFE_INTEGER, -5, 0])).toEqual([9007199254740991n, -5n, 0n]);
    expect(makeCells(column('small'), [2])).toEqual([2]);
    for (const value of [0.5, Number.NaN, 2 ** 53]) {
      expect(() => makeCells(column('integer'), [value])).toThrow(RangeError);
    }
  });

  it('stores local times as they are, whatever the time zone of the computer', () => {
    // 2026-11-24 is day 20,781 after 1970-01-01.
    expect(makeCells(column('time'), ['2026-11-24T00:00:01', '2026-11-24'])).toEqual([
      BigInt(20_781 * 86_400_000 + 1000),
      BigInt(20_781 * 86_400_000),
    ]);
    expect(() => makeCells(column('time'), ['yesterday'])).toThrow(RangeError);
  });
});

it('names no float in a schema', () => {
  const columns = (['integer', 'small', 'text', 'time'] as const).map(column);
  expect(makeParquetSchema({ name: 't', columns }).map(({ type }) => type)).toEqual([
    undefined,
    'INT64',
    'INT32',
    'BYTE_ARRAY',
    'INT64',
  ]);
});
