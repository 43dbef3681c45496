import { describe, expect, it } from 'vitest';
import { deviceSerial, findMachineOfDevice, listDevices } from '../../src/accounts/device-sightings.js';
import { rosterOf, takeCounters } from './machine-days.js';

const roster = rosterOf('machine,asset\nM1,A1\nM2,A2');
const reads = takeCounters(
  [
    { asset: 'A1', at: '2026-11-16 10:00', device: 'CR-1', device2: ' CR-2 ' },
    { asset: 'A1', at: '2026-11-17 10:00', device: 'CR-1' },
    { asset: 'A2', at: '2026-11-18 10:00', device: 'CR-2', device2: 'CR-3' },
    { asset: 'A9', at: '2026-11-18 10:00', device: 'CR-4', device2: '' },
  ],
  roster,
);

describe('card devices', () => {
  it('are known by the serial number that a read gives', () => {
    expect(deviceSerial(reads[0]!, 1)).toBe('CR-1');
    expect(deviceSerial(reads[0]!, 2)).toBe('CR-2');
    expect(deviceSerial(reads[1]!, 2)).toBeNull();
    expect(deviceSerial(reads[3]!, 2)).toBeNull();
    const sightings = [...listDevices(reads)].map(([serial, seen]) => `${serial} ${seen.map(({ slot }) => slot)}`);
    expect(sightings).toEqual(['CR-1 1,1', 'CR-2 2,1', 'CR-3 2', 'CR-4 1']);
  });

  it('lead to the one machine of the roster whose reads show them', () => {
    const machineOf = findMachineOfDevice(reads);
    expect(['CR-1', 'CR-2', 'CR-3', 'CR-4', 'CR-5'].map(machineOf)).toEqual(['M1', null, 'M2', null, null]);
  });
});
