import { describe, expect, it } from 'vitest';
import type { TakenRead } from '../../src/interval/index.js';
import { takeSegments } from '../support/taken.js';
import { type Known, read, service, stockOf, visit } from './stock-reads.js';

describe('columns that are sold out', () => {
  const soldOut = (reads: readonly TakenRead[], known: Known = {}) => stockOf(reads, known).columns[0]!.soldOut;
  const says = (...elements: string[]) => ({ 11: [`PA5*${elements.join('*')}`] });
  const fill = read(1, { vends: { 11: 100 } }, service);

  it('say so themselves, with the time since', () => {
    expect(soldOut([fill, read(3, { vends: { 11: 104 }, groups: says('261102', '1800') })])).toEqual({
      by: 'machine',
      at: '2026-11-02T18:00:00',
      minutes: 16 * 60,
    });
    expect(soldOut([fill, read(3, { vends: { 11: 104 }, groups: says('261102') })])).toEqual({
      by: 'machine',
      at: '2026-11-02',
      minutes: null,
    });
  });

  it('are not when they were filled since, by a visit with or without a capture', () => {
    const groups = says('261031', '1800');
    expect(soldOut([fill, read(3, { vends: { 11: 104 }, groups })])).toBeNull();
    // On the day of the fill without a time of day nobody knows which came first.
    expect(soldOut([fill, read(3, { vends: { 11: 104 }, groups: says('261101') })])).toBeNull();
    const later = read(3, { vends: { 11: 104 }, groups: says('261101', '1800') });
    expect(soldOut([fill, later])).not.toBeNull();
    expect(soldOut([fill, later], { visits: [visit('2026-11-02', null)] })).toBeNull();
    expect(soldOut([read(1, { vends: { 11: 1 } }), later], { visits: [visit('2026-11-02', null)] })).toBeNull();
  });

  it('are not when they vended since, or when nobody knows', () => {
    const groups = says('261102', '0800');
    const second = read(2, { vends: { 11: 104 }, groups });
    expect(soldOut([fill, second, read(3, { vends: { 11: 104 }, groups })])).not.toBeNull();
    expect(soldOut([fill, second, read(3, { vends: { 11: 105 }, groups })])).toBeNull();
    const without = takeSegments(['ID1*S1*MODEL-A****A1', 'ID5*261103*1000', 'CB1*B1', 'PA1*11*150', ...groups[11]], {
      file: '3.dex',
    });
    expect(soldOut([fill, second, without])).toBeNull();
  });

  it('are where no visit is known, by what the machine says alone', () => {
    const groups = says('261102', '0800');
    const reads = [read(1, { vends: { 11: 100 } }), read(3, { vends: { 11: 104 }, groups })];
    expect(soldOut(reads)).toMatchObject({ by: 'machine' });
  });

  it('are not by a time in the future, or a machine without a clock', () => {
    expect(soldOut([fill, read(3, { vends: { 11: 104 }, groups: says('261104', '0800') })])).toBeNull();
    const clockless = takeSegments(
      ['ID1*S1*MODEL-A****A1', 'CB1*B1', 'PA1*11*150', 'PA2*104*15600', 'PA5*261102*0800'],
      { file: '3.dex', receivedAt: '2026-11-03T10:00:00' },
    );
    expect(soldOut([fill, clockless])).toBeNull();
  });

  it('are by their counters when exactly par was vended, beyond doubt', () => {
    expect(soldOut([fill, read(3, { vends: { 11: 110 } })])).toEqual({ by: 'counters', at: null, minutes: null });
    expect(soldOut([fill, read(3, { vends: { 11: 109 } })])).toBeNull();
    expect(soldOut([fill, read(3, { vends: { 11: 111 } })])).toBeNull();
    const reads = [fill, read(3, { vends: { 11: 100 } }), read(5, { vends: { 11: 110 } })];
    expect(soldOut(reads, { visits: [visit('2026-11-04', null)] })).toBeNull();
  });
});
