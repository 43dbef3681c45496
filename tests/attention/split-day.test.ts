import { describe, expect, it } from 'vitest';
import { type AttentionInputs, splitDay } from '../../src/attention/index.js';
import { type CaptureCheck, checkCapture } from '../../src/checks/index.js';
import { makeFinding } from '../../src/findings/index.js';
import { Roster } from '../../src/sheets/index.js';
import { buildCapture, buildTransmission } from '../support/build-capture.js';
import { machineRow } from '../support/check-cases.js';
import { stretch } from './stretches.js';

const roster = new Roster({
  machines: [
    machineRow({ route: 'R7', driver: 'Robin Sample' }),
    machineRow({ machine: 'M2', asset: 'A2', active: false }),
  ],
});

const split = (given: Partial<AttentionInputs> = {}) =>
  splitDay({
    ...{ day: '2026-11-23', roster, checks: [], intervals: [], visits: [] },
    ...{ latest: new Map(), stock: new Map(), past: new Map(), findings: [] },
    ...given,
  });

/** A file with a read of each of these machines, ID1 being all that they say. */
function check(file: string, ...ids: string[]): CaptureCheck {
  const bytes = buildTransmission(ids.map((id, place) => ({ segments: [`ID1*${id}`, `ID5*261123*0${8 - place}00`] })));
  const { reads } = checkCapture(file, bytes, { roster });
  return { file, verdict: 'sound', headline: '', reads, findings: [] };
}

describe('splitDay', () => {
  it('has a place for every machine of the roster, and looks for those in use', () => {
    const { machines } = split();
    expect([...machines].map(([key, { isExpected }]) => [key, isExpected])).toEqual([['machine M1', true]]);
    expect(machines.get('machine M1')!.name).toMatchObject({ name: 'M1', route: 'R7', driver: 'Robin Sample' });
    expect([...split({ expected: [] }).machines]).toEqual([]);
  });

  it('puts reads to their machines, earliest first, and those that do not say to nobody', () => {
    const { machines, nobody, setAside } = split({
      checks: [
        check('a.dex', 'S1*M****A1', 'S1*M****A1', 'S7*M'),
        check('b.dex', '0*M****000'),
        check('c.dex', 'S8*M****A8'),
        check('empty.dex'),
      ],
    });
    expect([...machines.keys()]).toEqual(['machine M1', 'serial S7', 'asset A8']);
    expect(machines.get('machine M1')!.reads.map(({ number, at }) => [number, at])).toEqual([
      [1, '2026-11-23T07:00:00'],
      [0, '2026-11-23T08:00:00'],
    ]);
    expect(machines.get('serial S7')!.name).toMatchObject({ name: 'serial S7', row: null, location: null });
    expect(nobody.reads.map(({ file }) => file)).toEqual(['b.dex']);
    expect(nobody.name.name).toBeNull();
    expect(setAside.map(({ file }) => file)).toEqual(['empty.dex']);
  });

  it('knows a machine by its board, and by the weaker of its numbers', () => {
    const boardOnly = checkCapture('b.dex', buildCapture(['ID1*0*M****000', 'CB1*B1']));
    const { machines, nobody } = split({
      checks: [boardOnly, check('c.dex', 'S8*M****A8')],
      findings: ['B1', 'S8', 'asset A8'].map((machine) => makeFinding('padding', 'x', { machine })),
    });
    expect([...machines].map(([key, { findings }]) => [key, findings.length]).slice(-2)).toEqual([
      ['asset A8', 2],
      ['machine M1', 0],
    ]);
    expect(machines.get('board B1')!.findings).toHaveLength(1);
    expect(nobody.reads).toEqual([]);
  });

  it('puts a finding to the machine it names, else to that of its read, else to the only one of its file', () => {
    const of = (place: object) => makeFinding('padding', 'x', place);
    const both = check('both.dex', 'S1*M****A1', 'S8*M****A8');
    const { machines, nobody } = split({
      checks: [both, check('one.dex', 'S1*M****A1', 'S1*M****A1')],
      findings: [
        of({ machine: 'M1' }),
        of({ machine: 'A8' }),
        of({ machine: 'M5' }),
        of({ file: 'both.dex', read: 1 }),
        of({ file: 'both.dex', read: 9 }),
        of({ file: 'both.dex' }),
        of({ file: 'one.dex' }),
        of({ file: 'unknown.dex' }),
        of({}),
      ],
    });
    const counts = [...machines].map(([key, { findings }]) => [key, findings.length]);
    expect(counts).toEqual([
      ['machine M1', 2],
      ['asset A8', 2],
      ['machine M5', 1],
    ]);
    expect(nobody.findings).toHaveLength(4);
  });

  it('gives a read what was found on its file where it is alone there', () => {
    const alone = { ...check('a.dex', 'S1*M****A1'), findings: [makeFinding('padding', 'x')] };
    expect(split({ checks: [alone] }).machines.get('machine M1')!.reads[0]!.findings).toHaveLength(1);
    const two = { ...check('b.dex', 'S1*M****A1', 'S8*M****A8'), findings: [makeFinding('padding', 'x')] };
    const { machines, nobody } = split({
      checks: [{ ...two, findings: [makeFinding('padding', 'x', { file: 'b.dex' })] }],
    });
    expect(machines.get('machine M1')!.reads[0]!.findings).toEqual([]);
    expect(nobody.findings).toHaveLength(1);
  });

  it('puts what was done before in order', () => {
    const past = new Map([['machine M1', [stretch(60, 120), stretch(0, 60), stretch(0, 60)]]]);
    expect(
      split({ past })
        .machines.get('machine M1')!
        .stretches.map(({ to }) => to),
    ).toEqual(['2026-10-01T01:00:00', '2026-10-01T01:00:00', '2026-10-01T02:00:00']);
  });
});
