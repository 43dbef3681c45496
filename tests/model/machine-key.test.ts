import { describe, expect, it } from 'vitest';
import {
  keyOfName,
  keyOfNumbers,
  keysOfNumbers,
  keysOfSheetName,
  machineKey,
  nameOfMachineKey,
  parseMachineKey,
  rosterNameIn,
  sayNumbers,
  sheetNameOfKey,
  tellingNumber,
} from '../../src/model/index.js';
import { machineRow } from '../support/check-cases.js';
import { takeSegments } from '../support/taken.js';

describe('machineKey', () => {
  const cases: readonly (readonly [segments: string[], key: string | null])[] = [
    [['ID1*S1*M****A1', 'CB1*B1'], 'asset A1'],
    [['ID1*S1*M', 'CB1*B1'], 'serial S1'],
    [['ID1**M', 'CB1*B1'], 'board B1'],
    [['ID1**M'], null],
    // Numbers that were never given to the machine tell it from no other (common practice).
    [['ID1*S1*M****000000'], 'serial S1'],
    [['ID1*0000*M****  ', 'CB1*B1'], 'board B1'],
    [['ID1*000*M****00', 'CB1*0'], null],
  ];
  for (const [segments, key] of cases) {
    it(`${segments.join(' ')}: ${key}`, () => expect(machineKey(takeSegments(segments))).toBe(key));
  }

  it('is the roster name where there is one', () => {
    expect(machineKey(takeSegments(['ID1*S1'], { ...{}, ...{ file: 'a' } }))).toBe('serial S1');
    const taken = { ...takeSegments(['ID1*S1']), machine: machineRow({ machine: 'M7' }) };
    expect(machineKey(taken)).toBe('machine M7');
  });
});

describe('tellingNumber', () => {
  it('takes zeros and spaces for no number', () => {
    expect(['A0', '100', '0', '00 0', '', ' ', null].map(tellingNumber)).toEqual([
      'A0',
      '100',
      null,
      null,
      null,
      null,
      null,
    ]);
  });
});

describe('keys of numbers', () => {
  it('are of those that tell something, strongest first', () => {
    expect(keysOfNumbers({ asset: '000', serial: 'S1', board: 'B1' })).toEqual(['serial S1', 'board B1']);
    expect(keysOfNumbers({})).toEqual([]);
    expect(keyOfNumbers({ asset: null, serial: null, board: 'B 1' })).toBe('board B 1');
    expect(keyOfNumbers({ asset: '0', serial: ' ', board: null })).toBeNull();
  });
});

describe('a key taken apart', () => {
  it('gives back what it was made of', () => {
    for (const key of ['machine V 101', 'asset A1', 'serial S1', 'board B1', 'machine asset A1']) {
      const { kind, name } = parseMachineKey(key);
      expect(`${kind} ${name}`).toBe(key);
    }
    expect(parseMachineKey(keyOfName('asset A1'))).toEqual({ kind: 'machine', name: 'asset A1' });
    expect(() => parseMachineKey('V101')).toThrow(RangeError);
    expect(rosterNameIn('machine V101')).toBe('V101');
    expect(rosterNameIn('asset V101')).toBeNull();
  });

  it('names the machine: for people with the kind of number, in sheets without', () => {
    expect(['machine V101', 'asset A1', 'board B1'].map(nameOfMachineKey)).toEqual(['V101', 'asset A1', 'board B1']);
    expect(['machine V101', 'asset A1', 'board B1'].map(sheetNameOfKey)).toEqual(['V101', 'A1', 'B1']);
  });
});

describe('keysOfSheetName', () => {
  it('lists what a name may mean', () => {
    expect(keysOfSheetName('A1')).toEqual(['machine A1', 'asset A1', 'serial A1', 'board A1']);
    expect(keysOfSheetName('asset A1').slice(0, 2)).toEqual(['machine asset A1', 'asset A1']);
  });
});

describe('sayNumbers', () => {
  it('says what a machine gives, and its board where nothing else tells', () => {
    expect(sayNumbers({ asset: 'A1', serial: 'S1', board: 'B1' })).toEqual(['asset A1', 'serial S1']);
    expect(sayNumbers({ asset: '000', serial: null, board: 'B1' })).toEqual(['asset 000', 'board B1']);
    expect(sayNumbers({ asset: null, serial: null, board: null })).toEqual([]);
  });
});
