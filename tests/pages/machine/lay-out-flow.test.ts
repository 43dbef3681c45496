import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Flow, FlowPiece } from '../../../src/pages/machine/cash-flow.js';
import { type FlowBlock, layOutFlow } from '../../../src/pages/machine/lay-out-flow.js';

const piece = (amount: number | null): FlowPiece => ({
  label: 'Piece',
  amount,
  state: amount === null ? 'not-known' : 'known',
  isUnexplained: false,
  figure: null,
  note: null,
});
const flow = (ins: readonly (number | null)[], outs: readonly (number | null)[]): Flow => ({
  name: 'cash-in',
  title: 'A flow',
  ins: ins.map(piece),
  outs: outs.map(piece),
});
const amount = fc.option(fc.nat(1_000_000), { freq: 5 });

describe('layOutFlow', () => {
  it('makes every block as high as it is much, and what is not known no part of what flows', () => {
    const { ins, outs, middle } = layOutFlow(flow([300, null], [200, 100]));
    expect(ins.map(({ block }) => block.height)).toEqual([120, 16]);
    expect(outs.map(({ block }) => block.height)).toEqual([80, 40]);
    expect(ins[1]!.middle).toBeNull();
    expect(middle.height).toBe(120);
  });

  it('draws nothing where nothing flowed', () => {
    const { ins, outs, middle } = layOutFlow(flow([0], [0, 0]));
    expect([...ins, ...outs].map(({ middle: own }) => own)).toEqual([null, null, null]);
    expect(middle.height).toBe(0);
  });

  it('has room for every piece’s words, keeps within its height, and fills the middle to as much as there is', () => {
    fc.assert(
      fc.property(fc.array(amount, { maxLength: 6 }), fc.array(amount, { maxLength: 6 }), (ins, outs) => {
        const drawing = layOutFlow(flow(ins, outs));
        for (const side of [drawing.ins, drawing.outs]) {
          expectApart(side, drawing.height);
          const flowing = side.flatMap(({ middle }) => (middle === null ? [] : [middle]));
          for (const { top, height } of flowing) {
            expect(top).toBeGreaterThanOrEqual(drawing.middle.top - 1e-6);
            expect(top + height).toBeLessThanOrEqual(drawing.middle.top + drawing.middle.height + 1e-6);
          }
        }
      }),
      { numRuns: 200, seed: 5 },
    );
  });
});

function expectApart(side: readonly FlowBlock[], height: number): void {
  for (const [place, { top, block }] of side.entries()) {
    const next = side[place + 1]?.top ?? height;
    expect(next - top).toBeGreaterThanOrEqual(Math.min(32, height) - 1e-6);
    expect(top + block.height).toBeLessThanOrEqual(next + 1e-6);
  }
}
