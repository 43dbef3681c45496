import { describe, expect, it } from 'vitest';
import { gatherHistories } from '../../src/interval/index.js';
import { NO_READS, ReadsByMachine } from '../../src/settlement/machine-reads.js';
import { M1, makeMachine, type Scenario, takeScenario } from './scenario.js';

function sort(scenario: Omit<Scenario, 'counts'>): ReadsByMachine {
  const { reads, roster } = takeScenario(scenario);
  return new ReadsByMachine(gatherHistories(reads, roster));
}

const files = (machine: ReturnType<ReadsByMachine['find']>): unknown => ({
  usable: machine?.usable.all.map(({ taken }) => taken.file),
  faulty: machine?.faulty.all.map(({ taken }) => taken.file),
});

const two = { 'a.dex': { at: '2026-11-24T10:00' }, 'b.dex': { at: '2026-11-25T10:00', box: 10 } };

describe('ReadsByMachine', () => {
  it("finds a machine of the roster by the operator's name alone", () => {
    const reads = sort({ captures: two });
    expect(files(reads.find('M1'))).toEqual({ usable: ['a.dex', 'b.dex'], faulty: [] });
    expect(reads.find('A1')).toBeNull();
    expect([...reads.entries()].map(([name]) => name)).toEqual(['M1']);
  });

  it('finds a machine on no roster by its asset number, else its serial number', () => {
    const reads = sort({
      captures: { ...two, 'c.dex': { at: '2026-11-24T11:00', asset: null, serial: 'S2' } },
      machines: [],
    });
    expect(files(reads.find('A1'))).toEqual(files(reads.find('S1')));
    expect(files(reads.find('S2'))).toEqual({ usable: ['c.dex'], faulty: [] });
    expect([...reads.entries()].map(([name]) => name)).toEqual(['A1', 'S2']);
  });

  it('finds a machine on no roster by its board where it gives nothing else, and none by zeros', () => {
    const captures = {
      'a.dex': { at: '2026-11-24T10:00', asset: '000000', serial: '', board: 'B1' },
      'b.dex': { at: '2026-11-24T10:00', asset: '000000', serial: '', board: 'B2' },
    };
    const reads = sort({ captures, machines: [] });
    expect(files(reads.find('B1'))).toEqual({ usable: ['a.dex'], faulty: [] });
    expect(reads.find('000000')).toBeNull();
    expect([...reads.entries()].map(([name]) => name)).toEqual(['B1', 'B2']);
  });

  it('finds nothing by a serial number that two machines have', () => {
    const captures = { 'a.dex': { at: '2026-11-24T10:00' }, 'b.dex': { at: '2026-11-24T10:00', asset: 'A2' } };
    expect(sort({ captures, machines: [] }).find('S1')).toBeNull();
  });

  it('goes by the roster before a number that happens to be the same', () => {
    const captures = {
      'a.dex': { at: '2026-11-24T10:00', asset: 'M1', serial: 'S9' },
      'b.dex': { at: '2026-11-24T10:00' },
    };
    expect(files(sort({ captures }).find('M1'))).toEqual({ usable: ['b.dex'], faulty: [] });
  });

  it('leaves out a read that names no machine', () => {
    const captures = { 'a.dex': { at: '2026-11-24T10:00', asset: null, serial: '', board: '' } };
    expect([...sort({ captures, machines: [] }).entries()]).toEqual([]);
  });

  it('keeps reads with faults apart, and a copy with its original', () => {
    const captures = {
      ...two,
      'again.dex': { at: '2026-11-24T10:00', bag: 'B7' },
      'bad.dex': { at: '2026-11-25T10:00', box: 20, damaged: true },
      'bad-again.dex': { at: '2026-11-25T10:00', box: 20, damaged: true },
      'b-damaged.dex': { at: '2026-11-25T10:00', box: 10, damaged: true },
    };
    const machine = sort({ captures }).find('M1')!;
    expect(files(machine)).toEqual({ usable: ['a.dex', 'b.dex'], faulty: ['bad.dex'] });
    expect(machine.usable.all.map((read) => read.files)).toEqual([
      ['a.dex', 'again.dex'],
      ['b.dex', 'b-damaged.dex'],
    ]);
    expect(machine.usable.all[0]!.bags).toEqual(['B7']);
  });

  it('has nothing for a machine of which there is no read', () => {
    expect(sort({ captures: two, machines: [M1, makeMachine({ machine: 'M2' })] }).find('M2')).toBeNull();
    expect(files(NO_READS)).toEqual({ usable: [], faulty: [] });
  });
});
