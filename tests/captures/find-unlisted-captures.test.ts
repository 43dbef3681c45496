import { describe, expect, it } from 'vitest';
import { findUnlistedCaptures } from '../../src/captures/index.js';
import type { MachineRow } from '../../src/model/index.js';
import { Roster } from '../../src/sheets/index.js';
import { makeMachine, type Shown, takeScenario } from '../settlement/scenario.js';

const at = (asset: string, more: Partial<Shown> = {}): Shown => ({ at: '2026-11-24T10:00', asset, ...more });
const row = (machine: string, asset: string, more: Partial<MachineRow> = {}) =>
  makeMachine({ machine, asset, ...more });

function find(captures: Record<string, Shown>, machines: readonly MachineRow[]) {
  const { reads, roster } = takeScenario({ captures, machines });
  return findUnlistedCaptures(reads, roster);
}

describe('findUnlistedCaptures', () => {
  it('says of each machine that the roster lacks how many captures are there, and which machine may be meant', () => {
    const captures = {
      'a.dex': at('A101'),
      'b.dex': at('A101', { at: '2026-11-25T10:00', box: 5 }),
      'c.dex': at('A200'),
    };
    const [found, ...others] = find(captures, [row('V1', 'A1O1'), row('V2', 'A200')]);
    expect(others).toEqual([]);
    expect(found).toMatchObject({ code: 'unknown-machine', severity: 'doubt' });
    expect(found!.message).toBe(
      '2 captures are of the machine with asset A101 and serial S1, which is not on the roster: a.dex, b.dex. It may be V1 (the capture gives nearly the number on the roster (asset A1O1)): no capture of that one is here.',
    );
  });

  it('goes by the columns of the plan, and names nobody where they tell none apart', () => {
    const plan = ['V1', 'V2', 'V3', 'V4'].map((machine) => ({ machine, column: '11', product: null, price: 100 }));
    const machines = ['V1', 'V2', 'V3', 'V4'].map((machine) => row(machine, `X-${machine}-Y`));
    const { reads } = takeScenario({ captures: { 'a.dex': at('Q777') }, machines });
    const messageWith = (count: number): string => {
      const roster = new Roster({ machines: machines.slice(0, count), plan: plan as never });
      return findUnlistedCaptures(reads, roster)[0]!.message;
    };
    expect(messageWith(2)).toContain(
      'It may be V1 (the capture has the same columns) or V2 (the capture has the same columns)',
    );
    expect(messageWith(4)).not.toContain('It may be');
  });

  it('names no machine of which a capture is there', () => {
    const [found] = find({ 'a.dex': at('A101'), 'b.dex': at('A102') }, [row('V2', 'A102')]);
    expect(found!.message).not.toContain('It may be');
  });

  it('says nothing without a roster, or where all are on it', () => {
    expect(find({ 'a.dex': at('A101') }, [])).toEqual([]);
    expect(find({ 'a.dex': at('A101') }, [row('V1', 'A101')])).toEqual([]);
  });

  it('lists few files, and shows hostile names as text', () => {
    const captures = Object.fromEntries(
      ['a\u001b[2J', 'b', 'c', 'd', 'e'].map((file, i) => [file, at('Z\u0007', { box: i, serial: '' })]),
    );
    const { message } = find(captures, [row('V1', 'A1')])[0]!;
    expect(message).toContain('b, c and 2 more');
    expect(message).not.toMatch(/\p{Cc}/u);
  });
});
