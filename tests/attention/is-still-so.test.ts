import { describe, expect, it } from 'vitest';
import { isStillSo } from '../../src/attention/is-still-so.js';
import { type Finding, makeFinding } from '../../src/findings/index.js';
import { dayRead, machineDay } from './machine-days.js';

const event: Finding = makeFinding('event-active', 'A fault is active.');
const damage: Finding = makeFinding('integrity-damaged', 'Damaged.');

describe('isStillSo', () => {
  const judge = (findings: readonly Finding[], ...reads: ReturnType<typeof dayRead>[]) =>
    isStillSo(findings, machineDay({ reads }));

  it('is what the last capture of the day says', () => {
    const first = dayRead('a.dex', 8, [event]);
    expect(judge(first.findings, first)).toBe(true);
    expect(judge(first.findings, first, dayRead('b.dex', 20))).toBe(false);
    const second = dayRead('b.dex', 20, [event]);
    expect(judge([...first.findings, ...second.findings], first, second)).toBe(true);
  });

  it('does not go by a capture with faults', () => {
    const first = dayRead('a.dex', 8, [event]);
    expect(judge(first.findings, first, dayRead('b.dex', 20, [damage]))).toBe(true);
    const later = dayRead('b.dex', 20, [damage, event]);
    expect(judge(later.findings, dayRead('a.dex', 8), later)).toBe(true);
    expect(judge(later.findings, later)).toBe(true);
  });

  it('is so where nothing tells when', () => {
    const first = dayRead('a.dex', null, [event]);
    expect(judge(first.findings, first, dayRead('b.dex', 20))).toBe(true);
    expect(judge(dayRead('a.dex', 8, [event]).findings, dayRead('a.dex', 8, [event]), dayRead('b.dex', null))).toBe(
      true,
    );
    expect(judge([event], dayRead('b.dex', 20))).toBe(true);
    expect(judge([], dayRead('b.dex', 20))).toBe(true);
  });

  it('takes a finding without a read for one of the first read of its file', () => {
    const { read: _, ...fileOnly } = { ...event, file: 'a.dex', read: 0 };
    expect(judge([fileOnly], dayRead('a.dex', 8), dayRead('b.dex', 20))).toBe(false);
  });
});
