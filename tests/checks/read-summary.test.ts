import { describe, expect, it } from 'vitest';
import { summarizeRead } from '../../src/checks/read-summary.js';
import { buildCapture } from '../support/build-capture.js';
import { GOOD_SEGMENTS, machineRow, PLAIN_CONTEXT, readFirst } from '../support/check-cases.js';

const read = readFirst(buildCapture(GOOD_SEGMENTS));

describe('the summary of a read', () => {
  it('has the keys of the output contract', () => {
    const summary = summarizeRead(read, PLAIN_CONTEXT);
    for (const key of ['machine', 'clock', 'currency', 'decimals', 'segments', 'integrity', 'complete', 'columns']) {
      expect(summary).toHaveProperty(key);
    }
    expect(Object.keys(summary.integrity)).toEqual(['state', 'stated', 'computed']);
  });

  it('has what is known from outside', () => {
    const machine = machineRow({ location: 'Hall' });
    const receivedAt = '2026-11-24T10:20:00';
    expect(summarizeRead(read, { ...PLAIN_CONTEXT, machine, receivedAt, currency: 'CHF', decimals: 3 })).toMatchObject({
      machine: { name: 'M1', location: 'Hall' },
      receivedAt,
      currency: 'CHF',
      decimals: 3,
    });
  });
});
