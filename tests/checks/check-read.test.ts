import { describe, expect, it } from 'vitest';
import type { Check } from '../../src/checks/check.js';
import { checkRead } from '../../src/checks/check-read.js';
import { makeFinding } from '../../src/findings/index.js';
import { buildCapture } from '../support/build-capture.js';
import { GOOD_SEGMENTS, PLAIN_CONTEXT, readFirst } from '../support/check-cases.js';

const read = readFirst(buildCapture(GOOD_SEGMENTS));
const saying = (run: Check['run']): Check => ({ codes: ['padding'], summary: 'x', reference: 'x', run });
const says = saying(() => [makeFinding('padding', 'Something.', { line: 3 })]);
const crashes = (thrown: unknown): Check =>
  saying(() => {
    throw thrown;
  });

describe('checking a read', () => {
  it('fills in file and read', () => {
    expect(checkRead(read, PLAIN_CONTEXT, [says])).toEqual([
      { code: 'padding', severity: 'note', message: 'Something.', file: 'case.dex', read: 0, line: 3 },
    ]);
  });

  it('weighs findings as the profile says', () => {
    const context = { ...PLAIN_CONTEXT, profile: { name: 'p', severities: { padding: 'doubt' as const } } };
    expect(checkRead(read, context, [says])).toMatchObject([{ code: 'padding', severity: 'doubt' }]);
  });

  it('turns a crash into a finding and goes on', () => {
    const findings = checkRead(read, PLAIN_CONTEXT, [crashes(new TypeError('no\u0007 luck')), crashes('odd'), says]);
    expect(findings.map(({ code, severity }) => [code, severity])).toEqual([
      ['check-crashed', 'fault'],
      ['check-crashed', 'fault'],
      ['padding', 'note'],
    ]);
    expect(findings[0]!.message).toBe('A check failed (padding): TypeError: no\\x07 luck');
    expect(findings[1]!.message).toBe('A check failed (padding): odd');
  });

  it('keeps a hostile capture from filling the memory', () => {
    const many = saying(() => Array.from({ length: 5000 }, () => makeFinding('padding', 'Something.')));
    const findings = checkRead(read, PLAIN_CONTEXT, [many, says]);
    expect(findings).toHaveLength(1002);
    expect(findings[1000]!.message).toBe('There are 4000 more findings; the worst of them: Something.');
  });

  it('gives an empty list for a good read', () => {
    expect(checkRead(read, PLAIN_CONTEXT)).toEqual([]);
  });
});
