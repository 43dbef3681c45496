import { describe, expect, it } from 'vitest';
import { findRelabelling, isOtherMachine } from '../../src/interval/other-machine.js';
import { readOf } from '../support/interval-cases.js';

const judge = (from: readonly string[], to: readonly string[]): string => {
  const [a, b] = [readOf('from', from), readOf('to', to)];
  if (isOtherMachine(a, b)) return 'other';
  return findRelabelling(a, b) === null ? 'same' : 'relabelled';
};

describe('isOtherMachine, findRelabelling', () => {
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
    expect(findRelabelling(readOf('from', ['ID1*S1*M****A1']), readOf('to', ['ID1*S1*M****A2']))!.assets).toEqual([
      'A1',
      'A2',
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
