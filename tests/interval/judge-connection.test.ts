import { describe, expect, it } from 'vitest';
import { judgeConnection } from '../../src/interval/judge-connection.js';
import { readOf } from '../support/interval-cases.js';

describe('judgeConnection', () => {
  const from = readOf('from', ['ID5*261120*1000']);
  const to = readOf('to', ['ID5*261121*1000']);

  it('has nothing against two reads of one era, or of eras that follow each other', () => {
    expect(judgeConnection(from, to, null)).toBeNull();
    expect(judgeConnection(from, to, { before: [from], era: [to] })).toBeNull();
  });

  it('takes nothing from one machine to another', () => {
    const other = readOf('to', ['ID1*S2*M****A2', 'CB1*B2']);
    expect(judgeConnection(from, other, null)).toMatchObject({
      code: 'other-machine',
      severity: 'fault',
      file: 'to.dex',
      related: [{ file: 'from.dex' }],
      message: expect.stringMatching(/asset A1 at the earlier read, A2 at the later/),
    });
  });

  it('takes nothing from one board to another where their reads lie in each other', () => {
    const board = readOf('to', ['CB1*B2', 'ID5*261119*1000']);
    const seam = { before: [from], era: [board] };
    expect(judgeConnection(from, board, seam)).toMatchObject({ code: 'other-machine', severity: 'doubt' });
    const received = [
      { ...from, receivedAt: '2026-11-20T10:00:00' },
      { ...board, receivedAt: '2026-11-19T10:00:00' },
    ] as const;
    const finding = judgeConnection(received[0], received[1], { before: [received[0]], era: [received[1]] });
    expect(finding).toMatchObject({
      code: 'other-machine',
      severity: 'fault',
      message: expect.stringMatching(/B1, B2/),
    });
  });

  it('names boards without a number by the machine serial number, or as such', () => {
    const [a, b] = [readOf('from', ['CB1', 'ID5']), readOf('to', ['CB1', 'ID1**M****A1', 'ID5'])];
    const finding = judgeConnection(a, b, { before: [a], era: [b] });
    expect(finding!.message).toContain('(S1, no number)');
    expect(judgeConnection(b, a, { before: [b], era: [a] })!.message).toContain('(no number, S1)');
  });

  it('takes nothing across a cleared memory where it is not known which came first', () => {
    const cleared = readOf('to', ['EA4*261119*0900', 'ID5*261119*1000']);
    const finding = judgeConnection(from, cleared, { before: [from], era: [cleared] });
    expect(finding).toMatchObject({ code: 'out-of-order', severity: 'doubt' });
  });
});
