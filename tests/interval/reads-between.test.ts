import { describe, expect, it } from 'vitest';
import { countReads, judgeReadsBetween } from '../../src/interval/reads-between.js';
import { readOf } from '../support/interval-cases.js';

const judge = (from: string, to: string, profile: Parameters<typeof readOf>[2] = {}): string =>
  judgeReadsBetween(readOf('from', [from], profile), readOf('to', [to], profile));

describe('judgeReadsBetween', () => {
  it('goes by the number of all reads (EA309)', () => {
    expect(judge('EA3*********7', 'EA3*********8')).toBe('none');
    expect(judge('EA3*********7', 'EA3*********9')).toBe('some');
  });

  it('takes no step, or one back, for nothing', () => {
    expect(judge('EA3*********7', 'EA3*********7')).toBe('not-known');
    expect(judge('EA3*********7', 'EA3*********1')).toBe('not-known');
  });

  it('goes by EA301 where a profile says that it counts all reads', () => {
    const profile = { profile: { name: 'p', ea301: 'all-reads' } } as const;
    expect(judge('EA3*7', 'EA3*8', profile)).toBe('none');
    expect(judge('EA3*7', 'EA3*8')).toBe('not-known');
  });

  it('goes by the time of the read before (EA305, EA306), to the minute', () => {
    const from = 'EA3*7*261120*1000*X';
    expect(judge(from, 'EA3*8*261121*1000*X*261120*1000')).toBe('none');
    expect(judge(from, 'EA3*8*261121*1000*X*20261120*100030')).toBe('none');
    expect(judge(from, 'EA3*8*261121*1000*X*261120*1430')).toBe('some');
    expect(judge(from, 'EA3*8*261121*1000*X')).toBe('not-known');
  });

  it('goes by who took the read before (EA307, EA304; manual L0190D, p. 42)', () => {
    expect(judge('EA3*7***HAND-1', 'EA3*8***HAND-1***HAND-2')).toBe('some');
    // The same reader may have read it once more.
    expect(judge('EA3*7***HAND-1', 'EA3*8***HAND-1***HAND-1')).toBe('not-known');
    expect(judge('EA3*7', 'EA3*8***HAND-1***HAND-2')).toBe('not-known');
  });

  it('takes the clock where the earlier read does not give its own time', () => {
    expect(judge('EA3*7', 'EA3*8*261121*1000*X*261120*1000')).toBe('none');
    const bare = readOf('from', ['EA3*7', 'ID5']);
    expect(judgeReadsBetween(bare, readOf('to', ['EA3*8*261121*1000*X*261120*1000']))).toBe('not-known');
  });
});

describe('countReads', () => {
  it('counts from one capture to the next', () => {
    expect(countReads(readOf('from', ['EA3*********7']), readOf('to', ['EA3*********12']))).toBe(5);
    expect(countReads(readOf('from', ['EA3*7']), readOf('to', ['EA3*********12']))).toBeNull();
  });
});
