import { scaleLinear } from 'd3-scale';
import { largestOf } from '../../model/index.js';
import type { Flow, FlowPiece } from './cash-flow.js';

/** A stretch of a block's height. */
export interface Span {
  readonly top: number;
  readonly height: number;
}

/** A piece as it is drawn. */
export interface FlowBlock {
  readonly piece: FlowPiece;
  /** Where its words stand: the top of its place. */
  readonly top: number;
  /** Its block; as high as it is much. */
  readonly block: Span;
  /** Where it meets the middle; null for what is not known, or is nothing: that has no width. */
  readonly middle: Span | null;
}

/** A flow as it is drawn. */
export interface FlowDrawing {
  readonly ins: readonly FlowBlock[];
  readonly outs: readonly FlowBlock[];
  readonly height: number;
  readonly middle: Span;
}

/** The height of all that flows, in units of the drawing. */
const FLOW_HEIGHT = 120;
/** Two lines of words need so much. */
const LEAST_PLACE = 32;
/** How high a block is of which it is not known how much it is. */
const UNKNOWN_HEIGHT = 16;

/** Give every piece its place: high enough for its words, and its block and its end in the middle as high as it is much. */
export function layOutFlow({ ins, outs }: Flow): FlowDrawing {
  const sumOf = (side: readonly FlowPiece[]): number => side.reduce((sum, { amount }) => sum + (amount ?? 0), 0);
  const most = Math.max(sumOf(ins), sumOf(outs));
  const scale = scaleLinear([0, Math.max(most, 1)], [0, FLOW_HEIGHT]);
  const sides = [ins, outs].map((side) => placeBlocks(side, scale));
  const height = largestOf(
    sides.map(({ height }) => height),
    FLOW_HEIGHT,
  );
  const top = (height - FLOW_HEIGHT) / 2;
  const [left, right] = sides.map(({ blocks }) =>
    blocks.map((one) => (one.middle === null ? one : { ...one, middle: { ...one.middle, top: one.middle.top + top } })),
  );
  return { ins: left!, outs: right!, height, middle: { top, height: scale(most) } };
}

function placeBlocks(
  pieces: readonly FlowPiece[],
  scale: (amount: number) => number,
): { readonly blocks: FlowBlock[]; readonly height: number } {
  let top = 0;
  let end = 0;
  const blocks = pieces.map((piece): FlowBlock => {
    const own = piece.amount === null ? UNKNOWN_HEIGHT : scale(piece.amount);
    const block: FlowBlock = {
      piece,
      top,
      block: { top, height: own },
      middle: piece.amount === null || piece.amount === 0 ? null : { top: end, height: own },
    };
    top += Math.max(LEAST_PLACE, own + 6);
    end += piece.amount === null ? 0 : own;
    return block;
  });
  return { blocks, height: top };
}
