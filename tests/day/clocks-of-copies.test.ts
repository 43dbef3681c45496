import { describe, expect, it } from 'vitest';
import { checkCapture } from '../../src/checks/index.js';
import { dropClocksOfCopies } from '../../src/day/clocks-of-copies.js';
import { makeFinding } from '../../src/findings/index.js';
import { buildCapture } from '../support/build-capture.js';

const CAPTURE = buildCapture(['ID1*S1*M1****A1', 'ID5*261124*1000', 'VA1*5*5*0*0', 'PA1*11*1', 'PA2*5*5*0*0']);
const check = checkCapture('late.dex', CAPTURE, { receivedAt: '2026-11-25T10:00:00' });
const copy = (read: number) => makeFinding('duplicate-read', 'A copy.', { file: 'late.dex', read });

describe('dropClocksOfCopies', () => {
  it('takes what is said of the clock from a copy, and judges the file without it', () => {
    expect(check.verdict).toBe('doubtful');
    const [judged] = dropClocksOfCopies([check], [copy(0)]);
    expect(judged!.findings.map(({ code }) => code)).not.toContain('clock-wrong');
    expect(judged).toMatchObject({ verdict: 'sound', headline: 'Sound: nothing to do.' });
  });

  it('leaves all others as they are', () => {
    expect(dropClocksOfCopies([check], [copy(1)])).toEqual([check]);
    expect(dropClocksOfCopies([check], [])).toEqual([check]);
  });
});
