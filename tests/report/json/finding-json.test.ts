import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../../src/findings/index.js';
import { findingToJson, generalToJson } from '../../../src/report/index.js';

describe('findingToJson', () => {
  it('says null for what it always names, and leaves out other places that are not known', () => {
    expect(findingToJson(makeFinding('empty-file', 'Empty.'))).toEqual({
      code: 'empty-file',
      severity: 'fault',
      message: 'Empty.',
      advice: null,
      segment: null,
      element: null,
      line: null,
      offset: null,
      read: null,
    });
  });

  it('keeps everything that is known', () => {
    const detail = {
      advice: 'Look.',
      segment: 'PA2',
      element: 'PA201',
      line: 3,
      offset: 40,
      read: 0,
      file: 'a.dex',
      machine: 'M1',
      column: '11',
      row: 2,
      field: 'coins',
      expected: '1',
      received: '2',
      related: [{ file: 'b.dex', line: 4 }],
    };
    expect(findingToJson(makeFinding('cross-total', 'Off.', detail))).toMatchObject(detail);
  });
});

describe('generalToJson', () => {
  it('adds nothing where there is nothing to say', () => {
    expect(generalToJson([])).toEqual({});
    expect(generalToJson([makeFinding('padding', 'Filler.')]).general).toHaveLength(1);
  });
});
