import { scaleLinear } from 'd3-scale';
import { area, curveStepAfter } from 'd3-shape';
import type { PastStretch } from '../../attention/index.js';
import { printable } from '../../findings/index.js';
import { largestOf, minutesBetween } from '../../model/index.js';
import { estimateWords, roundWords } from './estimate-words.js';
import { type ColumnTrend, type Estimate, ratePerDay } from './trend.js';

const WIDTH = 320;
const HEIGHT = 120;
const LEFT = 34;
const TOP = 14;

/** Vends a day, stretch by stretch: the area of each is what it sold. A stretch that is not known is a broken line. */
export function RateChart({
  stretches,
  perDay,
}: {
  readonly stretches: readonly PastStretch[];
  readonly perDay: Estimate | null;
}) {
  const start = stretches.map(({ from }) => from).toSorted()[0]!;
  const end = stretches.at(-1)!.to;
  const x = scaleLinear([0, Math.max(1, minutesBetween(start, end))], [LEFT, WIDTH - 4]);
  const rates = stretches.map(ratePerDay);
  const most = largestOf(
    rates.map((rate) => rate ?? 0),
    1,
  );
  const y = scaleLinear([0, most], [TOP + HEIGHT, TOP]).nice(4);
  const at = (when: string): number => round(x(minutesBetween(start, when)));
  const base = TOP + HEIGHT;
  return (
    <svg class="chart" viewBox={`0 0 ${WIDTH} ${base + 20}`} role="img" aria-labelledby="rate-title rate-desc">
      <title id="rate-title">Sold a day, from read to read</title>
      <desc id="rate-desc">
        {perDay === null ? 'The usual number a day is not known.' : `Usually ${estimateWords(perDay)} a day.`} The table
        says the same.
      </desc>
      {y.ticks(4).map((tick) => (
        <g key={tick}>
          <line class="tick" x1={LEFT} x2={WIDTH - 4} y1={round(y(tick))} y2={round(y(tick))} />
          <text x={LEFT - 4} y={round(y(tick)) + 4} text-anchor="end" class="small">
            {tick}
          </text>
        </g>
      ))}
      {stretches.map((stretch, place) => {
        const rate = rates[place] ?? null;
        const [from, to] = [at(stretch.from), at(stretch.to)];
        if (rate === null) return <line key={place} class="axis gap" x1={from} x2={to} y1={base - 2} y2={base - 2} />;
        return (
          <path
            key={place}
            class={stretch.floor ? 'flow-unexplained' : 'shape-1 step'}
            d={step(from, to, y(rate), base)}
          />
        );
      })}
      <text x={LEFT} y={base + 14} class="small">
        {start.slice(0, 10)}
      </text>
      <text x={WIDTH - 4} y={base + 14} text-anchor="end" class="small">
        {end.slice(0, 10)}
      </text>
    </svg>
  );
}

const shape = area<readonly [number, number, number]>()
  .x(([x]) => x)
  .y0(([, , base]) => base)
  .y1(([, y]) => y)
  .curve(curveStepAfter)
  .digits(1);

function step(from: number, to: number, y: number, base: number): string {
  return shape([
    [from, y, base],
    [Math.max(to, from + 0.5), y, base],
  ])!;
}

const ROW = 18;
const NAME = 60;
/** Days beyond this are not drawn: who fills machines does not look further. */
const FARTHEST = 60;

/** As many rows as go on one side of paper. */
const MOST_ROWS = 30;

/** Columns of which it can be said when they are empty, in drawings of one scale. */
export function EmptyCharts({ columns, id }: { readonly columns: readonly ColumnTrend[]; readonly id: string }) {
  const drawn = columns.flatMap((column) => (column.empty === null ? [] : [{ column, empty: column.empty }]));
  const reach = largestOf(
    drawn.map(({ empty }) => Math.min(FARTHEST, empty.limits.high ?? FARTHEST)),
    1,
  );
  const charts = Array.from({ length: Math.ceil(drawn.length / MOST_ROWS) }, (_, place) => place);
  return (
    <>
      {charts.map((place) => (
        <EmptyChart
          key={place}
          drawn={drawn.slice(place * MOST_ROWS, (place + 1) * MOST_ROWS)}
          reach={reach}
          id={`${id}-${place + 1}`}
        />
      ))}
    </>
  );
}

interface EmptyChartProps {
  readonly drawn: readonly { readonly column: ColumnTrend; readonly empty: Estimate }[];
  readonly reach: number;
  readonly id: string;
}

/** A dot for when a column is empty at the rate so far, a line over the limits. */
function EmptyChart({ drawn, reach, id }: EmptyChartProps) {
  const x = scaleLinear([0, reach], [NAME, WIDTH - 14]).nice(5);
  const end = x.domain()[1]!;
  const at = (days: number): number => round(x(Math.min(days, end)));
  const bottom = drawn.length * ROW + 4;
  return (
    <svg class="chart" viewBox={`0 0 ${WIDTH} ${bottom + 30}`} role="img" aria-labelledby={`${id}-title ${id}-desc`}>
      <title id={`${id}-title`}>Days until columns are empty</title>
      <desc id={`${id}-desc`}>
        A dot for when it is empty at the rate so far, a line for where that lies 95 times in 100, an arrow where it
        goes on beyond the drawing. The table says the same.
      </desc>
      {x.ticks(5).map((tick) => (
        <g key={tick}>
          <line class="tick" x1={round(x(tick))} x2={round(x(tick))} y1="0" y2={bottom} />
          <text x={round(x(tick))} y={bottom + 13} text-anchor="middle" class="small">
            {roundTick(tick)}
          </text>
        </g>
      ))}
      {drawn.map(({ column, empty }, place) => {
        const y = place * ROW + ROW / 2;
        const { low, high } = empty.limits;
        const goesOn = high === null || high > end;
        return (
          <g key={place}>
            <text x={NAME - 6} y={y + 4} text-anchor="end">
              {printable(column.column, 8)}
            </text>
            <line class="axis" x1={at(low)} x2={goesOn ? WIDTH - 8 : at(high)} y1={y} y2={y} />
            {goesOn ? <path class="read" d={`M${WIDTH - 10} ${y - 4}l8 4l-8 4z`} /> : null}
            {empty.value > end ? null : <circle class="shape-2" cx={at(empty.value)} cy={y} r="4" />}
          </g>
        );
      })}
      <text x={WIDTH / 2} y={bottom + 27} text-anchor="middle" class="small">
        days after the last read
      </text>
    </svg>
  );
}

const roundTick = (tick: number): string => (Number.isInteger(tick) ? String(tick) : roundWords(tick));
const round = (length: number): number => Math.round(length * 10) / 10;
