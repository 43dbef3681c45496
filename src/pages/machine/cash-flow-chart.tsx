import { area, curveBumpX } from 'd3-shape';
import { amountCell, type MoneyUnit } from '../../report/text/words.js';
import type { Flow, FlowPiece } from './cash-flow.js';
import { type FlowBlock, layOutFlow, type Span } from './lay-out-flow.js';

/** What a drawing of a flow shows. */
export interface CashFlowChartProps {
  readonly flow: Flow;
  readonly unit: MoneyUnit;
  /** Begins its ids. */
  readonly id: string;
}

/** The drawing's units: as wide as a small screen shows them, so that its words can be read there. */
const WIDTH = 320;
const BLOCK = 8;
const LEFT = 100;
const RIGHT = WIDTH - LEFT - BLOCK;
const MIDDLE = WIDTH / 2 - BLOCK / 2;
const LINE = 13;

/** A flow of money from where it came, left, to where it went, right. The table that goes with it says the same. */
export function CashFlowChart({ flow, unit, id }: CashFlowChartProps) {
  const drawing = layOutFlow(flow);
  return (
    <svg
      class="chart"
      viewBox={`0 -2 ${WIDTH} ${Math.ceil(drawing.height) + 4}`}
      role="img"
      aria-labelledby={`${id}-title ${id}-desc`}
    >
      <title id={`${id}-title`}>{flow.title}</title>
      <desc id={`${id}-desc`}>{describeFlow(flow, unit)}</desc>
      {drawing.ins.map((block, place) => (
        <Block key={`in${place}`} block={block} unit={unit} side="in" shape={place} />
      ))}
      {drawing.outs.map((block, place) => (
        <Block key={`out${place}`} block={block} unit={unit} side="out" shape={place} />
      ))}
      <rect
        class="flow-middle"
        x={MIDDLE}
        y={round(drawing.middle.top)}
        width={BLOCK}
        height={round(Math.max(1, drawing.middle.height))}
      />
    </svg>
  );
}

/** All pieces in words, for who does not see the drawing. */
export function describeFlow({ ins, outs }: Flow, unit: MoneyUnit): string {
  const list = (pieces: readonly FlowPiece[]): string =>
    pieces.map((piece) => `${piece.label} ${pieceWords(piece, unit)}`).join(', ');
  return `Coming in: ${list(ins)}. Going out: ${list(outs)}.`;
}

/** How much a piece is, or why nothing is said. */
export function pieceWords({ amount, state }: FlowPiece, unit: MoneyUnit): string {
  if (state === 'no-counter') return 'no counter';
  return amount === null ? 'not known' : amountCell(amount, unit);
}

interface BlockProps {
  readonly block: FlowBlock;
  readonly unit: MoneyUnit;
  readonly side: 'in' | 'out';
  readonly shape: number;
}

const SHAPES = 4;

function Block({ block: { piece, top, block, middle }, unit, side, shape }: BlockProps) {
  const x = side === 'in' ? LEFT : RIGHT;
  const words = side === 'in' ? LEFT - 5 : RIGHT + BLOCK + 5;
  const anchor = side === 'in' ? 'end' : 'start';
  const look = lookOf(piece, shape);
  return (
    <g>
      {middle === null ? null : <path class={`${look} ribbon`} d={ribbon(block, middle, side)} />}
      {piece.amount === 0 ? null : (
        <rect class={look} x={x} y={round(top)} width={BLOCK} height={round(Math.max(1, block.height))} />
      )}
      <text x={words} y={round(top) + LINE - 3} text-anchor={anchor}>
        {piece.label}
      </text>
      <text x={words} y={round(top) + 2 * LINE - 3} text-anchor={anchor} class="strong">
        {pieceWords(piece, unit)}
      </text>
    </g>
  );
}

/** What is not known has a broken edge and is empty; what is not explained has a broken edge and a tint. */
function lookOf({ amount, isUnexplained }: FlowPiece, shape: number): string {
  if (amount === null) return 'flow-unknown';
  return isUnexplained ? 'flow-unexplained' : `shape-${(shape % SHAPES) + 1}`;
}

const band = area<{ x: number; span: Span }>()
  .x(({ x }) => x)
  .y0(({ span }) => span.top)
  .y1(({ span }) => span.top + span.height)
  .curve(curveBumpX)
  .digits(1);

function ribbon(block: Span, middle: Span, side: 'in' | 'out'): string {
  const ends =
    side === 'in'
      ? [
          { x: LEFT + BLOCK, span: block },
          { x: MIDDLE, span: middle },
        ]
      : [
          { x: MIDDLE + BLOCK, span: middle },
          { x: RIGHT, span: block },
        ];
  return band(ends)!;
}

const round = (length: number): number => Math.round(length * 10) / 10;
