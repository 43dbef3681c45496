import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../src/findings/index.js';
import { buildIntervals, doubtsBehind, type Step, tellStep } from '../../src/interval/index.js';
import { Roster } from '../../src/sheets/index.js';
import { takeSegments } from '../support/taken.js';

const read = (day: number, isDoubted: boolean) =>
  takeSegments([`ID1*S1*M*1***A1`, `ID5*2611${day}*1000`, `VA1*${day * 100}*${day}`], {
    file: `${day}.dex`,
    doubts: isDoubted ? [makeFinding('integrity-absent', 'none', { file: `${day}.dex` })] : [],
  });
const stepsOf = (doubted: readonly number[]): readonly Step[] =>
  buildIntervals(
    [20, 21, 22].map((day) => read(day, doubted.includes(day))),
    new Roster(),
  ).intervals;
const filesOf = (steps: readonly Step[]) => doubtsBehind(steps).map(({ file }) => file);

describe('doubtsBehind', () => {
  it('finds those of the first and the last read; what is in between cancels out', () => {
    expect(filesOf(stepsOf([20, 21, 22]))).toEqual(['20.dex', '22.dex']);
    expect(filesOf(stepsOf([21]))).toEqual([]);
    expect(filesOf(stepsOf([21]).slice(0, 1))).toEqual(['21.dex']);
  });

  it('finds all where counters since the last reset stand in, each once', () => {
    const steps = stepsOf([20, 21, 22]).map((step) => ({ ...step, usesIntervalCounters: true }));
    expect(filesOf(steps)).toEqual(['20.dex', '21.dex', '22.dex']);
  });

  it('does not send anybody to a machine that stands otherwise by now', () => {
    expect(doubtsBehind(stepsOf([20]))[0]).toMatchObject({ advice: expect.stringContaining('sound copy') });
  });
});

describe('tellStep', () => {
  it('is what was found between the reads, and what they carry', () => {
    const [sound, doubted] = [stepsOf([])[0]!, stepsOf([20])[0]!];
    expect(tellStep(sound)).toBe(sound.findings);
    expect(tellStep(doubted).map(({ code }) => code)).toEqual([
      ...doubted.findings.map(({ code }) => code),
      'integrity-absent',
    ]);
  });
});
