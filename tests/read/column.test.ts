import { describe, expect, it } from 'vitest';
import type { Read } from '../../src/read/index.js';
import { buildCapture } from '../support/build-capture.js';
import { readFirst } from '../support/check-cases.js';

const readOf = (...segments: string[]): Read => readFirst(buildCapture(segments));

describe('the columns of a read', () => {
  const read = readOf(
    'ID1*S',
    'PA1*11*150*Crisps*12*10',
    'PA2*10*1500*2*300',
    'PA5*261123*1800*1*4',
    'PA7*11*CA*0*150*7*1050*2*300',
    'PA7*11*DA*3*140*3*420*0*0',
    'PA1*12',
    'PA1*13*x',
    'PA7*13**',
  );

  it('come in the order of the machine, with what it gives of them', () => {
    expect(read.columnCount).toBe(3);
    expect(read.columns.map(({ id, price }) => [id, price])).toEqual([
      ['11', 150],
      ['12', null],
      ['13', null],
    ]);
    const first = read.column('11')!;
    expect([first.number('PA201'), first.number('PA301'), first.text('PA103'), first.text('PA107')]).toEqual([
      10,
      null,
      'Crisps',
      null,
    ]);
    expect(read.column('99')).toBeNull();
    expect(read.column('12')!.text('PA102')).toBeNull();
  });

  it('give figures with their places', () => {
    expect(read.column('11')!.figure('PA202')).toMatchObject({ element: 'PA202', value: 1500, line: 5, column: '11' });
    expect(read.column('11')!.figure('PA301')).toBeNull();
    expect(read.column('12')!.place('PA201')).toMatchObject({ segment: 'PA1', column: '12' });
    expect(read.column('12')!.place()).toMatchObject({ element: 'PA101', column: '12' });
  });

  it('know when they were sold out', () => {
    expect(read.column('11')!.soldOutAt).toEqual({ date: '2026-11-23', time: '18:00:00' });
    expect(read.column('12')!.soldOutAt).toBeNull();
    expect(readOf('PA1*1', 'PA5*261123').columns[0]!.soldOutAt).toEqual({ date: '2026-11-23', time: null });
  });

  it('give their paid vends by device and list', () => {
    expect(read.column('11')!.payments).toMatchObject([
      { device: 'CA', list: '0', price: 150, count: 7, value: 1050, intervalCount: 2, intervalValue: 300 },
      { device: 'DA', list: '3', price: 140, count: 3, value: 420 },
    ]);
    expect(read.column('12')!.payments).toEqual([]);
    expect(read.column('13')!.payments).toMatchObject([{ device: '', list: '', price: null }]);
    expect(readOf('PA1*1', 'PA7*1').columns[0]!.payments).toMatchObject([{ device: '', list: '', count: null }]);
  });

  it('have no line for a segment that is not one of theirs', () => {
    expect(read.column('11')!.line(read.index.single.length)).toBe(-1);
  });
});
