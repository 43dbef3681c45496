import { scaleLinear } from 'd3-scale';
import { largestOf } from '../../model/index.js';
import { Money, Pieces, Shown } from '../frame/index.js';
import { ColumnMarks, type MarksGiven, markColumn } from './column-marks.js';
import { layOutTrays } from './tray-layout.js';

/** One column at its place. */
export interface TrayColumn extends MarksGiven {
  /** Where its figures come from, and its row in the table. */
  readonly traceId: string;
  readonly rowId: string | undefined;
}

const LONGEST_PRODUCT = 40;
/** A tray of more columns than this is broken into lines even on a wide screen. */
const MOST_ABREAST = 12;
const BAR = 60;

/** Columns as they lie on the machine's trays, each with what it sold and what is to be minded. */
export function Trays({ columns }: { readonly columns: readonly TrayColumn[] }) {
  const layout = layOutTrays(columns.map(({ column }) => column.column));
  const most = largestOf(
    columns.map(({ column }) => column.sold ?? 0),
    1,
  );
  const width = scaleLinear([0, most], [0, BAR]);
  return (
    <div class="trays">
      <p class="faint">{layout.how} The bars compare how many were sold.</p>
      {layout.trays.map(({ name, places }) => (
        <div key={name} class={name !== null && places.length <= MOST_ABREAST ? 'tray tray-row' : 'tray'}>
          {name === null ? null : <p class="tray-name">Tray {name}</p>}
          <ul aria-label={name === null ? 'Columns' : `Columns of tray ${name}`}>
            {places.map((place) => (
              <Slot key={place} one={columns[place]!} width={width} />
            ))}
          </ul>
        </div>
      ))}
    </div>
  );
}

function Slot({ one, width }: { readonly one: TrayColumn; readonly width: (sold: number) => number }) {
  const { column, interval, traceId, rowId } = one;
  const { column: name, product, sold, value, floor } = column;
  const label = <Shown text={name} max={20} />;
  return (
    <li class="slot">
      <strong>{rowId === undefined ? label : <a href={`#${rowId}`}>{label}</a>}</strong>{' '}
      {product === null ? null : <Shown text={product} max={LONGEST_PRODUCT} />}
      <div>
        <Pieces count={sold} floor={floor} from={`#${traceId}`} /> sold
        {value === null ? null : (
          <>
            {', '}
            <Money amount={value} unit={interval} />
          </>
        )}
      </div>
      {sold === null ? null : (
        <svg class="bar" viewBox={`0 0 ${BAR} 5`} width={BAR} height="5" aria-hidden="true">
          <rect class="bar-room" width={BAR} height="5" />
          <rect class="shape-1" width={Math.round(Math.max(0, width(sold)))} height="5" />
        </svg>
      )}
      <div>
        <ColumnMarks marks={markColumn(one)} />
      </div>
    </li>
  );
}
