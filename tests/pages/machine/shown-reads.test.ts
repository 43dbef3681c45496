import { describe, expect, it } from 'vitest';
import type { CaptureCheck } from '../../../src/checks/index.js';
import { makeFinding } from '../../../src/findings/index.js';
import type { TakenRead } from '../../../src/interval/index.js';
import { showReads } from '../../../src/pages/machine/shown-reads.js';
import { buildTransmission } from '../../support/build-capture.js';
import { readOf } from '../../support/interval-cases.js';
import { type TakenOptions, takeAll } from '../../support/taken.js';

const readAt = (time: string, options: TakenOptions = {}): TakenRead =>
  readOf('from', [`ID5*${time}`], { file: `${time}.dex`, ...options });

const check = (file: string, given: Partial<CaptureCheck> = {}): CaptureCheck => ({
  file,
  verdict: 'sound',
  headline: '',
  reads: [],
  findings: [],
  ...given,
});

describe('showReads', () => {
  it('goes by time, says what became of a read, and how many days none was taken', () => {
    const fault = makeFinding('cut-short', 'Cut.');
    const early = readAt('261120*1000', { reason: 'service' });
    const faulty = readAt('261120*1200', { faults: [fault] });
    const late = readAt('261124*0900', { reason: 'scheduled' });
    const again = readAt('261124*0900', { file: 'again.dex', receivedAt: '2026-11-24T23:00:00' });
    const shown = showReads({ reads: [late, again, faulty, early], ordered: [early, late], checks: new Map() });
    expect(shown.map(({ taken, use, isService, daysMissed }) => [taken.file, use, isService, daysMissed])).toEqual([
      ['261120*1000.dex', 'used', true, 0],
      ['261120*1200.dex', 'faulty', null, 0],
      ['261124*0900.dex', 'used', false, 3],
      ['again.dex', 'set-aside', null, 0],
    ]);
    // One that came again hours later says nothing of the machine's clock.
    expect(shown.at(-1)).toMatchObject({ clockAhead: null, isClockDoubtful: false });
  });

  it('keeps the order of the accounts where clocks say another, and reads without a time', () => {
    const first = readAt('261121*1000');
    const second = readAt('261120*1000');
    const untimed = readAt('999999*1000', { file: 'untimed.dex' });
    const shown = showReads({ reads: [second, untimed, first], ordered: [first, second], checks: new Map() });
    expect(shown.filter(({ use }) => use === 'used').map(({ taken }) => taken)).toEqual([first, second]);
    expect(shown.find(({ taken }) => taken === untimed)).toMatchObject({ at: null, daysMissed: 0 });
  });

  it('doubts a clock as the day’s check does, else beyond the tolerance of ten minutes', () => {
    const near = readAt('261120*1000', { receivedAt: '2026-11-20T10:10:00' });
    const far = readAt('261121*1000', { receivedAt: '2026-11-21T09:49:00' });
    const checked = readAt('261122*1000', { receivedAt: '2026-11-22T12:00:00' });
    const found = readAt('261123*1000');
    const finding = makeFinding('clock-wrong', 'Wrong.', { read: 0 });
    const checks = new Map([
      [checked.file, check(checked.file)],
      [found.file, check(found.file, { verdict: 'doubtful', findings: [finding] })],
    ]);
    const reads = [near, far, checked, found];
    const shown = showReads({ reads, ordered: reads, checks });
    expect(shown.map(({ clockAhead, isClockDoubtful }) => [clockAhead, isClockDoubtful])).toEqual([
      [-10, false],
      [11, true],
      [-120, false],
      [null, true],
    ]);
    expect(shown.map(({ verdict }) => verdict)).toEqual([null, null, 'sound', 'doubtful']);
  });

  it('gives each read of a file its own verdict', () => {
    const bytes = buildTransmission([1, 2].map((hour) => ({ segments: ['ID1*S1', `ID5*261120*0${hour}00`] })));
    const reads = takeAll(bytes, { file: 'both.dex' });
    const findings = [makeFinding('integrity-damaged', 'Damaged.', { read: 1 })];
    const summary = {} as CaptureCheck['reads'][number];
    const both = check('both.dex', { verdict: 'read-again', findings, reads: [summary, summary] });
    const shown = showReads({ reads, ordered: reads, checks: new Map([['both.dex', both]]) });
    expect(shown.map(({ verdict }) => verdict)).toEqual(['sound', 'read-again']);
  });
});
