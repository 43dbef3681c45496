import { describe, expect, it, vi } from 'vitest';
import * as z from 'zod';
import { ColumnShapes } from '../../src/sheets/column-shapes.js';
import type { Column } from '../../src/sheets/columns.js';

const columnOf = (shape: z.ZodType): Column<unknown> => ({ shape }) as unknown as Column<unknown>;

describe('ColumnShapes', () => {
  it('says why a value does not fit, as often as it is asked', () => {
    const shapes = new ColumnShapes({ par: columnOf(z.int().min(0, 'is below 0').nullable()) });
    expect([shapes.refuse('par', 3), shapes.refuse('par', null)]).toEqual([null, null]);
    expect([shapes.refuse('par', -1), shapes.refuse('par', -1)]).toEqual(['is below 0', 'is below 0']);
  });

  it('holds a value against its shape once, and what may change each time', () => {
    const shape = z.unknown();
    const parse = vi.spyOn(shape, 'safeParse');
    const shapes = new ColumnShapes({ a: columnOf(shape) });
    for (const value of ['x', 'x', 'y', 'x']) shapes.refuse('a', value);
    expect(parse).toHaveBeenCalledTimes(2);
    const list: number[] = [];
    shapes.refuse('a', list);
    shapes.refuse('a', list);
    expect(parse).toHaveBeenCalledTimes(4);
  });
});
