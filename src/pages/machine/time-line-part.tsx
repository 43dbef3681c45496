import { symbol, symbolCircle, symbolCross, symbolDiamond, symbolSquare, symbolTriangle } from 'd3-shape';
import { durationWords, plural, timeWords } from '../../report/text/words.js';
import { DataTable, Mark, Shown, type TableColumn, VerdictMark, When } from '../frame/index.js';
import type { ShownRead } from './shown-reads.js';
import { layOutTimeLine, type TimeLineDrawing, type TimeLinePoint, type TimeLineShape } from './time-line.js';

/** What a time line shows. */
export interface TimeLinePartProps {
  /** Oldest first. */
  readonly reads: readonly ShownRead[];
}

const MOST_READS = 60;
const WIDTH = 320;
const LINE = 34;

/** A machine's reads in time: verdicts, reasons, service visits, gaps, clocks in doubt; the drawing and the same as a table. */
export function TimeLinePart({ reads }: TimeLinePartProps) {
  if (reads.length === 0) return <p>No read of this machine is known.</p>;
  const shown = reads.slice(-MOST_READS);
  const drawing = layOutTimeLine(shown, [14, WIDTH - 14]);
  const left = reads.length - shown.length;
  return (
    <>
      {left === 0 ? null : <p>{plural(left, 'earlier read')} not shown here.</p>}
      {drawing === null ? null : <TimeLineChart drawing={drawing} />}
      <DataTable caption="Reads, oldest first" columns={columnsFor(shown)} rows={shown} />
    </>
  );
}

const SHAPES: Readonly<Record<TimeLineShape, { readonly d: string; readonly words: string }>> = {
  sound: { d: symbol(symbolCircle, 80)()!, words: 'circle: sound' },
  doubtful: { d: symbol(symbolTriangle, 80)()!, words: 'triangle: doubtful' },
  'read-again': { d: symbol(symbolCross, 90)()!, words: 'cross: read again, not used' },
  used: { d: symbol(symbolDiamond, 60)()!, words: 'diamond: of an earlier day, used' },
  'set-aside': { d: symbol(symbolSquare, 50)()!, words: 'square: set aside' },
};

function TimeLineChart({ drawing }: { readonly drawing: TimeLineDrawing }) {
  const { points, stretches, from, to } = drawing;
  const shapes = [...new Set(points.map(({ shape }) => shape))].map((shape) => SHAPES[shape].words);
  const legend = [
    ...shapes,
    ...(points.some(({ isService }) => isService) ? ['S: service'] : []),
    ...(points.some(({ isClockDoubtful }) => isClockDoubtful) ? ['?: clock in doubt'] : []),
    ...(stretches.some(({ isGap }) => isGap) ? ['broken line: days without a read'] : []),
  ];
  return (
    <figure>
      <svg class="chart" viewBox={`0 0 ${WIDTH} 68`} role="img" aria-labelledby="time-line-title time-line-desc">
        <title id="time-line-title">
          Reads from {timeWords(from)} to {timeWords(to)}
        </title>
        <desc id="time-line-desc">{plural(points.length, 'read')} on a line of time; the table says the same.</desc>
        {stretches.map(({ from: x1, to: x2, isGap }, place) => (
          <line key={place} class={isGap ? 'axis gap' : 'axis'} x1={x1} x2={x2} y1={LINE} y2={LINE} />
        ))}
        {points.map((point) => (
          <Point key={point.number} point={point} />
        ))}
        <text x="0" y="66" class="small">
          {from.slice(0, 10)}
        </text>
        <text x={WIDTH} y="66" text-anchor="end" class="small">
          {to.slice(0, 10)}
        </text>
      </svg>
      <figcaption class="faint">{legend.join('; ')}. Numbers as in the table.</figcaption>
    </figure>
  );
}

function Point({
  point: { x, shape, number, isService, isClockDoubtful, hasRoom },
}: {
  readonly point: TimeLinePoint;
}) {
  const signs = `${isService ? 'S' : ''}${isClockDoubtful ? '?' : ''}`;
  return (
    <g>
      {isService ? <line class="axis" x1={x} x2={x} y1="14" y2={LINE} /> : null}
      <path class={`read read-${shape}`} transform={`translate(${x} ${LINE})`} d={SHAPES[shape].d} />
      {signs === '' ? null : (
        <text x={x} y="11" text-anchor="middle" class="small">
          {signs}
        </text>
      )}
      {hasRoom ? (
        <text x={x} y={LINE + 17} text-anchor="middle" class="small">
          {number}
        </text>
      ) : null}
    </g>
  );
}

function columnsFor(reads: readonly ShownRead[]): readonly TableColumn<ShownRead>[] {
  return [
    { head: 'No.', cell: (_, place) => place + 1 },
    { head: 'Time', cell: ({ at }) => <When at={at} /> },
    { head: 'Verdict', cell: (read) => <ReadVerdict read={read} /> },
    { head: 'Reason', cell: ({ taken: { reason } }) => reason ?? 'not stated' },
    { head: 'Since the read before', cell: (read, place) => sinceWords(reads[place - 1] ?? null, read) },
    { head: 'Clock', cell: (read) => <ClockWords read={read} /> },
    { head: 'File', cell: ({ taken }) => <FileWords taken={taken} /> },
  ];
}

function ReadVerdict({ read: { verdict, use } }: { readonly read: ShownRead }) {
  const mark = verdict === null ? null : <VerdictMark verdict={verdict} />;
  if (use === 'set-aside') {
    return (
      <>
        {mark} <Mark tone="plain" sign="·" word="set aside, not counted again" />
      </>
    );
  }
  if (use === 'faulty') return mark ?? <VerdictMark verdict="read-again" />;
  return mark ?? <Mark tone="plain" sign="·" word="used, of an earlier day" />;
}

function sinceWords(before: ShownRead | null, { at, daysMissed }: ShownRead): string {
  const duration = durationWords(before?.at ?? null, at);
  if (duration === null) return '';
  return daysMissed === 0 ? duration : `${duration}: ${plural(daysMissed, 'day')} without a read`;
}

function ClockWords({ read: { taken, use, clockAhead, isClockDoubtful } }: { readonly read: ShownRead }) {
  if (use === 'set-aside') return null;
  const words =
    taken.read.clock === null
      ? 'gives no time'
      : clockAhead === null
        ? 'held against nothing'
        : clockAhead === 0
          ? 'right'
          : `${plural(Math.abs(clockAhead), 'minute')} ${clockAhead > 0 ? 'ahead' : 'behind'}`;
  if (!isClockDoubtful) return words;
  return (
    <>
      <Mark tone="warn" sign="?" word="in doubt" /> {words}
    </>
  );
}

function FileWords({ taken: { file, read } }: Pick<ShownRead, 'taken'>) {
  return (
    <>
      <Shown text={file} max={80} />
      {read.number === 0 ? '' : `, read ${read.number + 1}`}
    </>
  );
}
