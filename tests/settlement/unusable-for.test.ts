import { describe, expect, it } from 'vitest';
import type { UnusableCount } from '../../src/model/index.js';
import { unusableFor } from '../../src/settlement/unusable-for.js';
import { Roster } from '../../src/sheets/index.js';
import { M1, makeMachine } from './scenario.js';

const ROSTER = new Roster({ machines: [M1, makeMachine({ machine: 'M2' })] });
const rowOf = (machine: string | null): UnusableCount =>
  ({ machine, visitedAt: { date: '2026-11-24', time: null }, place: { file: 'c.csv', row: 2 } }) as UnusableCount;
const visitOf = (machine: string | null, of = 'M1') => unusableFor(new Set([of]), [rowOf(machine)], ROSTER);

describe('unusableFor', () => {
  it('gives a machine its own rows, as the visits they are', () => {
    expect(visitOf('M1')).toEqual([rowOf('M1')]);
    expect(visitOf('M2')).toEqual([]);
  });

  it('gives every machine the rows of nobody, which may be its bags and are no visits of its', () => {
    for (const unknown of [null, 'M9']) expect(visitOf(unknown)).toEqual([{ ...rowOf(unknown), visitedAt: null }]);
  });
});
