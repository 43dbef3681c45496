import { type MoneyUnit, unitWords } from '../../report/text/words.js';
import { DataTable, Heading, type HeadingLevel, Money, type TableColumn } from '../frame/index.js';
import type { Flow, FlowPiece } from './cash-flow.js';
import { CashFlowChart, pieceWords } from './cash-flow-chart.js';
import { cashTraceId } from './trace-ids.js';

/** What a flow on a page shows. */
export interface CashFlowPartProps {
  readonly flow: Flow;
  readonly unit: MoneyUnit;
  /** Which interval of the page, from 1. */
  readonly interval: number;
  readonly level: HeadingLevel;
}

/** A flow of money: the drawing, and the same as a table whose figures lead to where they come from. */
export function CashFlowPart({ flow, unit, interval, level }: CashFlowPartProps) {
  const rows = [
    ...flow.ins.map((piece) => ({ piece, side: 'in' })),
    ...flow.outs.map((piece) => ({ piece, side: 'out' })),
  ];
  return (
    <section class="keep">
      <Heading level={level}>{flow.title}</Heading>
      <div class="beside">
        <figure>
          <CashFlowChart flow={flow} unit={unit} id={`flow-${interval}-${flow.name}`} />
        </figure>
        <DataTable caption={`${flow.title}, in ${unitWords(unit)}`} columns={columnsOf(unit, interval)} rows={rows} />
      </div>
    </section>
  );
}

interface SidedPiece {
  readonly piece: FlowPiece;
  readonly side: string;
}

function columnsOf(unit: MoneyUnit, interval: number): readonly TableColumn<SidedPiece>[] {
  return [
    { head: 'Piece', cell: ({ piece }) => piece.label },
    { head: 'Way', cell: ({ side }) => side },
    { head: 'Amount', isNumber: true, cell: ({ piece }) => <Amount piece={piece} unit={unit} interval={interval} /> },
    { head: 'Remark', cell: ({ piece }) => piece.note },
  ];
}

function Amount({
  piece,
  unit,
  interval,
}: {
  readonly piece: FlowPiece;
  readonly unit: MoneyUnit;
  readonly interval: number;
}) {
  const from = piece.figure === null ? undefined : `#${cashTraceId(piece.figure, interval)}`;
  if (piece.amount !== null) return <Money amount={piece.amount} unit={unit} from={from} />;
  const words = pieceWords(piece, unit);
  return from === undefined ? words : <a href={from}>{words}</a>;
}
