import { describe, expect, it } from 'vitest';
import { likenessOf, tellLikeness, traitsOf } from '../../src/captures/index.js';
import { makeMachine, type Shown, takeScenario } from '../settlement/scenario.js';

const M = makeMachine({ machine: 'V1', asset: 'A1O1', serial: 'S900' });
const seen = (given: Partial<Shown>): Shown => ({ at: '2026-11-24T10:00', asset: 'Q77', serial: 'Z55', ...given });

function tell(stranger: Partial<Shown>, own: Record<string, Partial<Shown>> = {}): string[] | null {
  const captures = Object.fromEntries(Object.entries({ stranger, ...own }).map(([file, shown]) => [file, seen(shown)]));
  const { reads, roster } = takeScenario({ captures, machines: [] });
  const read = reads.find(({ file }) => file === 'stranger')!.read;
  const likeness = likenessOf(
    read,
    traitsOf(
      M,
      roster,
      reads.filter(({ file }) => file !== 'stranger'),
      reads.findLast(({ file }) => file !== 'stranger')?.read ?? null,
    ),
  );
  return likeness === null ? null : tellLikeness(likeness);
}

describe('what a capture has in common with a machine', () => {
  it('is a number nearly as on the roster', () => {
    expect(tell({ asset: 'A101' })).toEqual(['gives nearly the number on the roster (asset A1O1)']);
    expect(tell({ serial: 'S9OO' })).toEqual(['gives nearly the number on the roster (serial S900)']);
  });

  it('is the board and the columns of captures that the machine has', () => {
    expect(tell({ board: 'B7' }, { own: { board: 'B7', price: null } })).toEqual(['has the same board']);
    expect(tell({ board: 'B7' }, { own: { board: 'B8' } })).toEqual(['has the same columns']);
  });

  it('is nothing where nothing is alike, or a board number tells nothing', () => {
    expect(tell({})).toBeNull();
    expect(tell({ board: '0000' }, { own: { board: '0000', price: null } })).toBeNull();
  });
});
