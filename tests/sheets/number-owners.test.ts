import { describe, expect, it } from 'vitest';
import { NumberOwners } from '../../src/sheets/index.js';
import { machineRow } from '../support/check-cases.js';

const rows = [
  machineRow({ machine: 'V1', asset: 'A1', serial: 'S1' }),
  machineRow({ machine: 'V2', asset: 'A2', serial: 'A1' }),
  machineRow({ machine: 'V3', asset: '000000', serial: 'S3' }),
  machineRow({ machine: 'V4', asset: '000000', serial: 'S4' }),
];
const owners = new NumberOwners(rows);

describe('NumberOwners', () => {
  it('finds by asset number, else by serial number', () => {
    expect(owners.find({ asset: 'A1', serial: 'S3' })).toEqual({ machine: rows[0], by: 'asset' });
    expect(owners.find({ asset: null, serial: 'A1' })).toEqual({ machine: rows[1], by: 'serial' });
    expect(owners.find({ asset: 'A9', serial: null })).toBeNull();
  });

  it('takes zeros for the number of nobody, though several rows have them', () => {
    expect(owners.find({ asset: '000000', serial: 'S4' })).toEqual({ machine: rows[3], by: 'serial' });
    expect(owners.find({ asset: '000000', serial: null })).toBeNull();
    expect(owners.has('asset', '000000')).toBe(false);
    expect(owners.has('serial', 'S4')).toBe(true);
  });

  it('knows whether numbers changed hands', () => {
    expect(new NumberOwners(rows.slice(0, 1)).areAsIn(owners)).toBe(true);
    expect(owners.areAsIn(new NumberOwners(rows.slice(0, 1)))).toBe(false);
  });
});
