import { describe, expect, it } from 'vitest';
import { MachineNames, type MachineNumbers } from '../../src/model/index.js';

const numbers = (asset: string | null, serial: string | null = null, board: string | null = null): MachineNumbers => ({
  asset,
  serial,
  board,
});

describe('MachineNames', () => {
  it('finds a machine that no roster has by its printed key and by each of its numbers', () => {
    const names = new MachineNames();
    names.add('asset A1', numbers('A1', 'S1', 'B1'));
    names.add('board B2', numbers('000000', null, 'B2'));
    expect(['A1', 'S1', 'B1', 'asset A1'].map((name) => names.find(name))).toEqual(Array(4).fill('asset A1'));
    expect(['B2', 'board B2'].map((name) => names.find(name))).toEqual(['board B2', 'board B2']);
    expect(['000000', 'X', ''].map((name) => names.find(name))).toEqual([null, null, null]);
    expect([...names.entries()]).toEqual([
      ['asset A1', 'A1'],
      ['board B2', 'B2'],
    ]);
  });

  it('gives the name on the roster before a number, and an asset number before a serial number', () => {
    const names = new MachineNames();
    names.add('serial N1', numbers(null, 'N1'));
    names.add('asset N1', numbers('N1'));
    expect(names.find('N1')).toBe('asset N1');
    names.add('machine N1', numbers('other'));
    expect(names.find('N1')).toBe('machine N1');
    expect(names.find('other')).toBeNull();
  });

  it('finds none by a number that several machines have', () => {
    const names = new MachineNames();
    names.add('asset A1', numbers('A1', 'S9'));
    names.add('asset A1', numbers('A1', 'S9'));
    expect(names.find('S9')).toBe('asset A1');
    names.add('asset A2', numbers('A2', 'S9'));
    names.add('asset A1', numbers('A1', 'S9'));
    expect(names.find('S9')).toBeNull();
    expect([names.isShared('S9'), names.isShared('A1'), names.isShared('X')]).toEqual([true, false, false]);
  });
});
