import type { VNode } from 'preact';
import type { RefillRow } from '../../day/index.js';
import { listFigureIds, traceFigure } from '../../explain/index.js';
import type { Interval, TakenRead } from '../../interval/index.js';
import { bestTime } from '../../model/index.js';
import { durationWords, plural } from '../../report/text/words.js';
import {
  byteLength,
  type cashAnchor,
  columnAnchor,
  Money,
  Pieces,
  pageOut,
  renderPart,
  Shown,
  TableRow,
  When,
} from '../frame/index.js';
import { CashPart } from './cash-part.js';
import { COLUMNS, ColumnsPart, ColumnTraces } from './columns-part.js';
import { cashTraceId, columnTraceId, totalTraceId } from './trace-ids.js';
import { Trace, type TraceContext } from './traces.js';
import { type TrayColumn, Trays } from './trays.js';

/** What the blocks of an interval are made from. */
export interface IntervalGiven {
  readonly interval: Interval;
  /** Which interval of the page, from 1, newest first. */
  readonly number: number;
  /** What the columns hold at the machine's last read. */
  readonly refill: readonly RefillRow[];
  /** Whether the page is known to be too long for one file, so that columns have to be measured. */
  readonly isLong: boolean;
}

/** Bytes of columns that stay together, and columns on one block. */
const COLUMN_BYTES = 180_000;
const MOST_COLUMNS = 60;
/** No machine has as many columns; a hostile capture can have any number. */
export const MOST_COLUMNS_SHOWN = 1000;

/** An interval as blocks, each of which can stand on a page of its own: heading and sums, columns, cash. */
export function makeIntervalBlocks(given: IntervalGiven): VNode[] {
  const { interval, number } = given;
  const columns = placeColumns(given);
  const context: TraceContext = { ends: interval, unit: interval, linkOf: () => undefined };
  const sizeOf = (one: TrayColumn): number => (given.isLong ? measureColumn(one, context) : 0);
  const parts = pageOut(columns, sizeOf, { bytes: COLUMN_BYTES, items: MOST_COLUMNS });
  const isWhole = parts.length === 1 && columns.length === interval.columns.length;
  const links = linksOf(interval, number, isWhole);
  const own: TraceContext = { ...context, linkOf: (figure) => links.get(figure) };
  const [first, ...others] = parts.map((part, place) => {
    const start = parts.slice(0, place).reduce((sum, before) => sum + before.length, 0);
    const which = isWhole ? '' : `, ${start + 1} to ${start + part.length} of ${columns.length}`;
    return { part, which };
  });
  return [
    <section key={`interval-${number}`}>
      <IntervalHead interval={interval} number={number} />
      <Totals interval={interval} number={number} context={own} />
      <h3>Sales by column{first!.which}</h3>
      {columns.length === interval.columns.length ? null : (
        <p>{plural(interval.columns.length - columns.length, 'more column')} not shown here; the sums have them.</p>
      )}
      {columns.length === 0 ? (
        <p>The reads have no columns.</p>
      ) : (
        <ColumnsPart columns={first!.part} interval={interval} context={own} which={first!.which} />
      )}
    </section>,
    ...others.map(({ part, which }) => (
      <section key={which}>
        <h2>Sales by column{which}</h2>
        <ColumnsPart columns={part} interval={interval} context={own} which={which} />
      </section>
    )),
    <CashBlock key={`cash-${number}`} interval={interval} number={number} context={own} />,
  ];
}

/** The cash has a heading of its own level 2, so that it can stand on another page than the sales. */
function CashBlock({ interval, number, context }: { interval: Interval; number: number; context: TraceContext }) {
  return (
    <section>
      <h2>Cash of the same time</h2>
      <CashPart interval={interval} number={number} context={context} />
    </section>
  );
}

/** Columns with the ids of their rows; one whose id another has already gets none, since links could not tell them apart. */
function placeColumns({ interval, number, refill }: IntervalGiven): TrayColumn[] {
  const until = bestTime(interval.to);
  const stock = new Map(refill.filter((row) => row.until === until).map((row) => [row.column, row]));
  const taken = new Set<string>();
  return interval.columns.slice(0, MOST_COLUMNS_SHOWN).map((column, place) => {
    const id = columnAnchor(column.column, number);
    const rowId = taken.has(id) ? undefined : id;
    taken.add(id);
    return {
      column,
      interval,
      refill: stock.get(column.column) ?? null,
      traceId: columnTraceId(place, number),
      rowId,
    };
  });
}

function measureColumn(one: TrayColumn, context: TraceContext): number {
  const parts = (
    <>
      <Trays columns={[one]} />
      <TableRow columns={COLUMNS} row={one} place={0} />
      <ColumnTraces one={one} context={context} />
    </>
  );
  return byteLength(renderPart(parts));
}

const COLUMN_FIGURE = /^columns\.(.*)\.[A-Za-z]+$/s;

/** Where figures that others rest on are explained, as far as that is on the same page. */
function linksOf(interval: Interval, number: number, isWhole: boolean): ReadonlyMap<string, string> {
  const places = new Map(interval.columns.map(({ column }, place) => [column, place]));
  const links = new Map<string, string>();
  for (const figure of listFigureIds(interval)) {
    if (figure.startsWith('cash.')) {
      const name = figure.slice('cash.'.length) as Parameters<typeof cashAnchor>[0];
      links.set(figure, `#${cashTraceId(name, number)}`);
    }
    const column = isWhole ? COLUMN_FIGURE.exec(figure)?.[1] : undefined;
    const place = column === undefined ? undefined : places.get(column);
    if (place !== undefined) links.set(figure, `#${columnTraceId(place, number)}`);
  }
  return links;
}

function IntervalHead({ interval, number }: { readonly interval: Interval; readonly number: number }) {
  const { from, to, basis } = interval;
  const duration = durationWords(bestTime(from), bestTime(to));
  const counters = {
    lifetime: 'from counters since initialisation',
    interval: 'from counters since the last reset, for want of others',
    restart: 'since the counters started again: what was sold before that is lost',
  }[basis];
  return (
    <>
      <h2 id={number === 1 ? 'sales' : `sales-${number}`}>
        Sold from <When at={bestTime(from)} /> to <When at={bestTime(to)} />
      </h2>
      <p>
        {duration === null ? '' : `${duration}, `}
        {counters}.
      </p>
      <dl class="facts">
        <dt>Earlier read</dt>
        <dd>
          <FileOf taken={from} />
        </dd>
        <dt>Later read</dt>
        <dd>
          <FileOf taken={to} />
        </dd>
      </dl>
    </>
  );
}

function FileOf({ taken: { file, read } }: { readonly taken: TakenRead }) {
  return (
    <>
      <Shown text={file} max={200} />
      {read.number === 0 ? '' : `, read ${read.number + 1}`}
    </>
  );
}

const TOTALS = [
  ['sold', 'Sold'],
  ['value', 'For'],
  ['loss', 'Cost of prices off plan'],
  ['unexplained', 'Money that no known price explains'],
  ['test', 'Test vends'],
  ['free', 'Free vends'],
] as const;

/** The sums of an interval, and where each comes from. */
function Totals({ interval, number, context }: { interval: Interval; number: number; context: TraceContext }) {
  const { totals, floor } = interval;
  return (
    <>
      <dl class="facts">
        {TOTALS.map(([figure, label]) => {
          const from = `#${totalTraceId(figure, number)}`;
          const amount = totals[figure];
          const isCount = figure === 'sold' || figure === 'test' || figure === 'free';
          const isFloor = floor && figure !== 'loss' && figure !== 'unexplained';
          return (
            <>
              <dt>{label}</dt>
              <dd>
                {amount === null ? (
                  <a href={from}>not known</a>
                ) : isCount ? (
                  <Pieces count={amount} floor={isFloor} from={from} />
                ) : (
                  <Money amount={amount} unit={interval} floor={isFloor} from={from} withCurrency />
                )}
              </dd>
            </>
          );
        })}
      </dl>
      <div class="traces">
        {TOTALS.map(([figure, label]) => (
          <details key={figure}>
            <summary>{label}: where it comes from</summary>
            <div id={totalTraceId(figure, number)}>
              <Trace trace={traceFigure(interval, `totals.${figure}`)!} context={context} />
            </div>
          </details>
        ))}
      </div>
    </>
  );
}
