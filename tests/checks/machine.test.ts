import { describe, expect, it } from 'vitest';
import { machineCheck } from '../../src/checks/machine.js';
import { changeSegments, checkCases, machineRow, runCase } from '../support/check-cases.js';

const m1 = machineRow({ asset: 'A1', serial: 'SN1' });
const m2 = machineRow({ machine: 'M2', asset: 'A2', serial: 'SN2' });
const said = (machine: typeof m1): { saidMachine: typeof m1; saidName: string } => ({
  saidMachine: machine,
  saidName: machine.machine,
});
const onlySerial = changeSegments({ put: ['ID1*SN1*MODEL-A'] });

checkCases('machine', machineCheck, {
  clean: [
    { name: 'an unknown machine without a roster', context: { saidName: 'M9' } },
    { name: 'a machine of the roster', context: { hasRoster: true, machine: m1 } },
    { name: 'the machine it was said to be of', context: { hasRoster: true, machine: m1, ...said(m1) } },
    {
      name: 'a said machine of which the roster knows no number',
      context: { hasRoster: true, ...said(machineRow({ asset: null })), machine: machineRow({ asset: null }) },
    },
    {
      name: 'a said machine with another asset but the same serial',
      context: { hasRoster: true, machine: m1, ...said({ ...m1, asset: 'A9' }) },
    },
    {
      name: 'a said machine whose capture gives nothing but zeros, which were never its number (common practice)',
      segments: changeSegments({ put: ['ID1*0000*MODEL-A****000000'] }),
      context: { hasRoster: true, machine: m1, ...said(m1) },
    },
    {
      name: 'a said machine with the same serial',
      segments: onlySerial,
      context: { hasRoster: true, machine: m1, ...said(m1) },
    },
  ],
  failing: [
    {
      name: 'another machine of the roster',
      context: { hasRoster: true, machine: m1, ...said(m2) },
      code: 'other-machine',
      severity: 'fault',
      message: /^The capture was said to be of machine M2, but is of M1\.$/,
      at: { expected: 'M2', received: 'M1', element: 'ID106' },
    },
    {
      name: 'a machine with another asset number',
      context: { hasRoster: true, machine: m2, ...said(m2) },
      code: 'other-machine',
      severity: 'fault',
      message: /machine M2 \(asset A2\), but gives asset A1\.$/,
    },
    {
      name: 'a machine with another serial number and no asset',
      segments: onlySerial,
      context: { hasRoster: true, machine: m2, ...said(m2) },
      code: 'other-machine',
      severity: 'doubt',
      message: /serial SN2\), but gives serial SN1: another machine, or a new board\.$/,
    },
    {
      name: 'a said machine that is not on the roster',
      context: { hasRoster: true, machine: m1, saidName: 'M\u00079' },
      code: 'unknown-machine',
      severity: 'doubt',
      message: /machine M\\x079, which is not on the roster\.$/,
    },
    {
      name: 'a machine that is not on the roster',
      context: { hasRoster: true },
      code: 'unknown-machine',
      severity: 'doubt',
      message: /^The capture gives asset A1 and serial SN1: no machine on the roster fits\.$/,
      at: { element: 'ID106' },
    },
    {
      name: 'a machine that only gives a serial number',
      segments: onlySerial,
      context: { hasRoster: true },
      code: 'unknown-machine',
      severity: 'doubt',
      message: /^The capture gives serial SN1: no machine/,
      at: { element: 'ID101' },
    },
    {
      name: 'a machine that gives no number',
      segments: changeSegments({ put: ['ID1**MODEL-A'] }),
      context: { hasRoster: true },
      code: 'unknown-machine',
      severity: 'doubt',
      message: /^The capture gives neither asset nor serial number: no machine/,
    },
    {
      name: 'a profile that is not there',
      context: { hasRoster: true, machine: m1, missingProfile: 'maker-x' },
      code: 'unknown-profile',
      severity: 'doubt',
      message: /asks for profile maker-x, which was not given/,
      at: { machine: 'M1' },
    },
  ],
});

describe('machine', () => {
  it('names a missing profile also where the machine is not known', () => {
    const context = { hasRoster: true, missingProfile: 'maker-x' };
    const findings = runCase(machineCheck, { name: 'odd', context });
    expect(findings.map(({ code }) => code)).toEqual(['unknown-machine', 'unknown-profile']);
  });
});
