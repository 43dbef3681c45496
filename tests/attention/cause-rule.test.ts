import { describe, expect, it } from 'vitest';
import { distinct, tellWorst } from '../../src/attention/cause-rule.js';
import { type Finding, makeFinding } from '../../src/findings/index.js';

const doubt = makeFinding('clock-wrong', 'A doubt.', { column: '11' });
const fault: Finding = makeFinding('cut-short', 'A fault.', { column: '12' });

describe('tellWorst', () => {
  it('says the worst, and how many others there are', () => {
    expect(tellWorst([doubt])).toBe('A doubt.');
    expect(tellWorst([doubt, fault])).toBe('A fault. (And 1 more.)');
  });

  it('counts what says the same once', () => {
    expect(tellWorst([doubt, { ...doubt, file: 'other.dex' }])).toBe('A doubt.');
  });
});

describe('distinct', () => {
  it('picks each value once, in order, and leaves out what has none', () => {
    const findings = [fault, doubt, fault, makeFinding('padding', 'None.')];
    expect(distinct(findings, ({ column }) => column)).toEqual(['12', '11']);
  });
});
