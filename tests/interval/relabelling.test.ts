import { describe, expect, it } from 'vitest';
import { findRelabellings, isOtherMachine } from '../../src/interval/relabelling.js';
import { intervalOf, readOf } from '../support/interval-cases.js';

const judge = (from: readonly string[], to: readonly string[]): string => {
  const [a, b] = [readOf('from', from), readOf('to', to)];
  if (isOtherMachine(a, b)) return 'other';
  return findRelabellings(a, b).some(({ element }) => element === 'ID106') ? 'relabelled' : 'same';
};

describe('isOtherMachine, findRelabellings', () => {
  it('asset and hardware differ: another machine', () => {
    expect(judge(['ID1*S1*M****A1', 'CB1*B1'], ['ID1*S2*M****A2', 'CB1*B2'])).toBe('other');
    expect(judge(['ID1*S1*M****A1', 'CB1*B1'], ['ID1*S1*M****A2', 'CB1*B2'])).toBe('other');
  });

  it('asset differs and nothing tells the hardware: another machine', () => {
    expect(judge(['ID1**M****A1', 'CB1'], ['ID1**M****A2', 'CB1'])).toBe('other');
    expect(judge(['ID1*000*M****A1', 'CB1*0'], ['ID1*000*M****A2', 'CB1*0'])).toBe('other');
  });

  it('asset differs, board and serial number do not: its number was changed', () => {
    expect(judge(['ID1*S1*M****A1', 'CB1*B1'], ['ID1*S1*M****A2', 'CB1*B1'])).toBe('relabelled');
    expect(findRelabellings(readOf('from', ['ID1*S1*M****A1']), readOf('to', ['ID1*S1*M****A2']))).toEqual([
      { element: 'ID106', before: 'A1', after: 'A2' },
    ]);
  });

  it('where only one of them is given, the counters must go on as well', () => {
    expect(judge(['ID1*S1*M****A1', 'CB1', 'VA1*100*5'], ['ID1*S1*M****A2', 'CB1', 'VA1*200*6'])).toBe('relabelled');
    expect(judge(['ID1*S1*M****A1', 'CB1', 'VA1*300*7'], ['ID1*S1*M****A2', 'CB1', 'VA1*200*6'])).toBe('other');
  });

  it('the asset is the same, or one of the two does not give it', () => {
    expect(judge(['ID1*S1*M****A1'], ['ID1*S2*M****A1'])).toBe('same');
    expect(judge(['ID1*S1*M****000'], ['ID1*S2*M****A1'])).toBe('same');
    expect(judge(['ID1*S1*M****A1'], ['ID1*S2*M'])).toBe('same');
  });
});

describe('findRelabellings: the machine number (Coges Engine MIFARE 2.5 manual, p. 99: a menu decides what ID101 is)', () => {
  const BOARD = 'CB1*B1';
  /** Segments, of which those given take the place of others of their kind. */
  const put = (own: string[], given: string[]): string[] => [
    ...new Map([...own, ...given].map((segment) => [segment.split('*')[0], segment])).values(),
  ];
  const before = (...more: string[]) => put(['ID1*S1*M****A1', 'VA1*5000*50*700*7', 'PA1*11', 'PA2*50*5000'], more);
  const after = (...more: string[]) => put(['ID1*4711*M****A1', 'VA1*5300*53*300*3', 'PA1*11', 'PA2*53*5300'], more);
  const find = (from: readonly string[], to: readonly string[]) =>
    findRelabellings(readOf('from', from), readOf('to', to));

  it('is a setting where the rise fits the interval counter, whether or not the board gives its number', () => {
    const set = [{ element: 'ID101', before: 'S1', after: '4711' }];
    expect(find(before(BOARD), after(BOARD))).toEqual(set);
    expect(find(before('CB1'), after('CB1'))).toEqual(set);
    expect(find(before('ID1*S1*M', BOARD), after('ID1*4711*M', BOARD))).toEqual(set);
  });

  it('is one on the same board where the rise is plausible and nothing contradicts it', () => {
    const [from, to] = [before('VA1*5000*50', BOARD), after('VA1*5300*53', BOARD)];
    expect(find(from, to)).toHaveLength(1);
    expect(find(before('VA1*5000*50', 'CB1'), after('VA1*5300*53', 'CB1'))).toEqual([]);
    expect(find(from, after('VA1*55300*553', BOARD))).toEqual([]);
    const unseen = after('VA1*5300*53*100*1', BOARD);
    expect(find(before(BOARD), unseen)).toEqual([]);
    expect(find(before(BOARD, 'EA3*********4'), [...unseen, 'EA3*********6'])).toHaveLength(1);
  });

  it('is none where counters fell or went, or columns, board, asset or initialisation are not the same', () => {
    expect(find(before(BOARD), after('VA1*4900*49*300*3', BOARD))).toEqual([]);
    expect(find(before('CA2*100*1', BOARD), after(BOARD))).toEqual([]);
    expect(find(before(BOARD), after('PA1*12', BOARD))).toEqual([]);
    expect(find(before(BOARD), after('CB1*B2'))).toEqual([]);
    expect(find(before(BOARD), after('ID1*4711*M****A2', BOARD))).toEqual([]);
    expect(find(before('EA4*240304*0900', BOARD), after('EA4*261120*0900', BOARD))).toEqual([]);
    expect(find(before('ID1*S1*M', 'CB1'), after('ID1*4711*M', 'CB1'))).toEqual([]);
  });

  it('loses no sale: all figures stand, with a doubt that names the element', () => {
    const interval = intervalOf(before(BOARD, 'DA2*5000*50*700*7'), after(BOARD, 'DA2*5300*53*300*3'));
    expect([interval.floor, interval.basis, interval.totals.value]).toEqual([false, 'lifetime', 300]);
    expect(interval.cash.cardSales).toBe(300);
    expect(interval.findings).toMatchObject([
      { code: 'relabelled', severity: 'doubt', element: 'ID101', message: expect.stringContaining('from S1 to 4711') },
    ]);
  });
});
