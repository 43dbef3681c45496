import { describe, expect, it } from 'vitest';
import { findNotRead } from '../../src/attention/find-not-read.js';
import { findSalesStopped } from '../../src/attention/find-sales-stopped.js';
import { findSilentDevices } from '../../src/attention/find-silent.js';
import { findSoldOut } from '../../src/attention/find-sold-out.js';
import { gatherFindings } from '../../src/attention/gather-findings.js';
import { lookAtMachine, lookAtSetAside } from '../../src/attention/index.js';
import { reportUnreadable } from '../../src/checks/index.js';
import { makeFinding } from '../../src/findings/index.js';
import type { Visit, VisitState } from '../../src/settlement/index.js';
import { dayRead, machineDay } from './machine-days.js';
import { days } from './stretches.js';

const visit = (state: VisitState, ...findings: Visit['findings']): Visit => ({ state, findings }) as unknown as Visit;
const causesOf = (given: Parameters<typeof machineDay>[0]) =>
  [...gatherFindings(machineDay(given))].map(([cause, findings]) => [cause, ...findings.map(({ code }) => code)]);

describe('gatherFindings', () => {
  const damaged = makeFinding('integrity-damaged', 'Damaged.');
  const counted = makeFinding('segment-count', 'Miscounted.');
  const clock = makeFinding('clock-wrong', 'Clock.');
  const note = makeFinding('padding', 'Padding.');

  it('puts all that is said of the worth of a faulty capture under one cause, and nothing else', () => {
    const reads = [dayRead('a.dex', 8, [damaged, counted, clock, note]), dayRead('b.dex', 9, [counted])];
    expect(causesOf({ reads })).toEqual([
      ['read-again', 'integrity-damaged', 'segment-count'],
      ['clock-wrong', 'clock-wrong'],
      ['capture-doubtful', 'segment-count'],
    ]);
  });

  it('puts a read that was left out of the accounts to those to be read again', () => {
    const unusable = makeFinding('capture-unusable', 'Left out.', { severity: 'fault' });
    expect(causesOf({ findings: [unusable] })).toEqual([['read-again', 'capture-unusable']]);
  });

  it('puts what is in the way of a visit under the state of the visit', () => {
    const short = makeFinding('short', 'Short.');
    const joint = makeFinding('joint-bags', 'Joint.');
    const board = makeFinding('board-changed', 'Board.');
    const differ = makeFinding('kinds-differ', 'Differ.');
    expect(causesOf({ visits: [visit('short', short, joint, board)] })).toEqual([
      ['bag-differs', 'short', 'joint-bags'],
      ['counters-back', 'board-changed'],
    ]);
    expect(causesOf({ visits: [visit('agreed', differ)] })).toEqual([['bag-differs', 'kinds-differ']]);
    expect(causesOf({ visits: [visit('agreed', joint)] })).toEqual([['bag-open', 'joint-bags']]);
    expect(causesOf({ visits: [visit('uncounted', joint)] })).toEqual([['bag-uncounted', 'joint-bags']]);
    expect(causesOf({ visits: [visit('unread', joint)] })).toEqual([['bag-open', 'joint-bags']]);
  });

  it('lists once what is said twice', () => {
    const twice = { ...clock, file: 'a.dex', read: 0 };
    expect(causesOf({ reads: [dayRead('a.dex', 8, [clock])], findings: [twice, { ...twice, column: '11' }] })).toEqual([
      ['clock-wrong', 'clock-wrong', 'clock-wrong'],
    ]);
  });
});

describe('what only shows over a day', () => {
  it('is not there where nothing is known', () => {
    const day = machineDay();
    expect([findNotRead(day), findSilentDevices(day), findSoldOut(day), findSalesStopped(day)]).toEqual([
      [],
      [],
      [],
      [],
    ]);
    expect(findSalesStopped(machineDay({ stretches: days(30, 30, 0) }))).toEqual([]);
  });

  it('is a machine that was not read, if it was looked for', () => {
    expect(findNotRead(machineDay({ isExpected: true }))).toMatchObject([{ code: 'not-read-today', machine: 'M1' }]);
    expect(findNotRead(machineDay({ isExpected: true, reads: [dayRead('a.dex', 8)] }))).toEqual([]);
  });
});

describe('lookAtMachine', () => {
  it('makes one item a cause, its findings worst first and its codes each once', () => {
    const jump = makeFinding('clock-jump', 'Jump.', { severity: 'fault' });
    const findings = [makeFinding('clock-wrong', 'One.'), makeFinding('clock-wrong', 'Two.'), jump];
    const [item, ...others] = lookAtMachine(machineDay({ findings }));
    expect(others).toEqual([]);
    expect(item).toMatchObject({ machine: 'M1', location: 'Library', cause: 'clock-wrong', severity: 'fault' });
    expect(item).toMatchObject({ currency: 'EUR', decimals: 2, codes: ['clock-jump', 'clock-wrong'] });
    expect(item!.findings.map(({ message }) => message)).toEqual(['Jump.', 'One.', 'Two.']);
  });
});

describe('lookAtSetAside', () => {
  it('makes one item of all files, and none of none', () => {
    const nobody = machineDay({ name: { name: null, row: null, location: null, route: null, driver: null } });
    const checks = [reportUnreadable('a.dex', 'no permission'), reportUnreadable('b.dex', 'no permission')];
    expect(lookAtSetAside(checks, nobody)).toMatchObject([{ machine: null, cause: 'set-aside', severity: 'fault' }]);
    expect(lookAtSetAside([], nobody)).toEqual([]);
  });
});
