import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../../src/findings/index.js';
import { groupAlike } from '../../../src/report/text/alike-findings.js';

describe('groupAlike', () => {
  const some = (count: number) =>
    Array.from({ length: count }, (_, line) => makeFinding('junk-before', 'Junk.', { line }));

  it('puts the worst first, and counts what is left of many of one kind', () => {
    const fault = makeFinding('empty-file', 'Empty.', {});
    expect(groupAlike([...some(8), fault]).map(({ shown, rest }) => [shown[0]!.code, shown.length, rest])).toEqual([
      ['empty-file', 1, 0],
      ['junk-before', 6, 2],
    ]);
  });

  it('shows one more where only that one would be left', () => {
    expect(groupAlike(some(7))).toMatchObject([{ shown: { length: 7 }, rest: 0 }]);
    expect(groupAlike([])).toEqual([]);
  });
});
