import type { VNode } from 'preact';
import type { PastStretch } from '../../attention/index.js';
import { minutesOf } from '../../attention/sales-history.js';
import type { DayInputs } from '../../day/index.js';
import { durationWords, plural, timeWords } from '../../report/text/words.js';
import {
  Absent,
  byteLength,
  DataTable,
  LARGEST_PAGE,
  Money,
  Page,
  type PageFile,
  Parts,
  Pieces,
  pageOut,
  renderPage,
  renderPart,
  Shown,
  type Site,
  type TableColumn,
  TableRow,
  When,
} from '../frame/index.js';
import { gatherMachines, type MachineGiven } from '../machine/machine-given.js';
import type { PagesBatch } from '../machine-pages-maker.js';
import { DOUBT_WORDS, estimateWords, roundWords, waitWords } from './estimate-words.js';
import { type ColumnTrend, type MachineTrend, makeTrend, ratePerDay } from './trend.js';
import { EmptyCharts, RateChart } from './trend-charts.js';
import { trendPageName } from './trend-page-name.js';

/** Bytes of blocks on one page, and of columns in one block. */
const PAGE_BYTES = 420_000;
const COLUMN_BYTES = 120_000;
const MOST_COLUMNS = 60;
/** No machine has as many columns; a hostile capture can have any number. */
const MOST_COLUMNS_SHOWN = 1000;
/** So many stretches, the last, are drawn and listed; the sums are over all. */
const MOST_STRETCHES = 60;
/** So many stretches, the last, are listed column by column. */
const LISTED_BY_COLUMN = 7;

/** The trend pages of the machines of a batch of which there is any history. */
export function* makeTrendPages(batch: PagesBatch, site: Site): Generator<PageFile, void, undefined> {
  for (const given of gatherMachines(batch)) yield* makeTrendOf(given, batch.inputs, site);
}

/** The trend page of one machine, in parts where it is too long; none where nothing is known of any time. */
export function makeTrendOf(given: MachineGiven, inputs: DayInputs, site: Site): PageFile[] {
  const trend = makeTrend(given, inputs);
  if (trend === null) return [];
  const { machine } = given;
  const title = `Trend of machine ${machine}`;
  const name = trendPageName(site, machine);
  const whole = renderPage(
    <Page title={title} site={site} here={name}>
      {makeBlocks({ given, trend, site, isLong: false })}
    </Page>,
  );
  if (byteLength(whole) <= LARGEST_PAGE) return [{ name, text: whole }];
  const blocks = makeBlocks({ given, trend, site, isLong: true });
  const pages = pageOut(blocks, (block) => byteLength(renderPart(block)), { bytes: PAGE_BYTES });
  const names = pages.map((_, place) => trendPageName(site, machine, place + 1));
  return pages.map((own, place) => {
    const page = (
      <Page
        title={pages.length === 1 ? title : `${title}, part ${place + 1} of ${pages.length}`}
        site={site}
        here={names[place]!}
      >
        {own}
        <Parts of={title} hrefs={names} here={place} />
      </Page>
    );
    return { name: names[place]!, text: renderPage(page) };
  });
}

interface BlocksGiven {
  readonly given: MachineGiven;
  readonly trend: MachineTrend;
  readonly site: Site;
  /** Whether the page is known to be too long for one file, so that columns have to be measured. */
  readonly isLong: boolean;
}

function makeBlocks({ given: { machine, location }, trend, site, isLong }: BlocksGiven): VNode[] {
  const sizeOf = (column: ColumnTrend): number => (isLong ? measureColumn(column, trend) : 0);
  const shown = trend.columns.slice(0, MOST_COLUMNS_SHOWN);
  const parts = pageOut(shown, sizeOf, {
    bytes: COLUMN_BYTES,
    items: MOST_COLUMNS,
  });
  let start = 0;
  const columns = parts.map((part, place) => {
    const which = parts.length === 1 ? '' : `, ${start + 1} to ${start + part.length} of ${trend.columns.length}`;
    start += part.length;
    return <ColumnsBlock key={`columns-${place}`} columns={part} trend={trend} which={which} number={place + 1} />;
  });
  return [
    <section key="head">
      <p>
        <a href={site.machinePages.of(machine)}>Machine page</a>
        {location === null ? null : (
          <>
            , <Shown text={location} />
          </>
        )}
      </p>
      <Sales trend={trend} />
    </section>,
    ...columns,
    ...(shown.length === trend.columns.length
      ? []
      : [<p key="left">{plural(trend.columns.length - shown.length, 'more column')} not shown here.</p>]),
    <Method key="method" />,
  ];
}

function Sales({ trend: { stretches, untimed, perDay } }: { readonly trend: MachineTrend }) {
  const shown = stretches.slice(-MOST_STRETCHES);
  const left = stretches.length - shown.length;
  return (
    <>
      <h2 id="sales">Sold a day</h2>
      <p>
        {plural(stretches.length, 'stretch', 'stretches')} from read to read are known, from{' '}
        <When at={stretches[0]!.from} /> to <When at={stretches.at(-1)!.to} />.{' '}
        {perDay === null
          ? 'How many it usually sells a day is not known: there is less than a day of which its sales are known.'
          : `It usually sells ${estimateWords(perDay)} a day.`}
        {left === 0 ? '' : ` The last ${shown.length} are shown.`}
        {untimed === 0 ? '' : ` ${plural(untimed, 'interval')} without usable times left out.`}
      </p>
      <div class="beside">
        <figure>
          <RateChart stretches={shown} perDay={perDay} />
          <figcaption class="faint">
            Each block is as wide as its time, and as high as was sold a day in it. Broken line: not known. Broken edge:
            at least so many.
          </figcaption>
        </figure>
        <DataTable caption="Sold from read to read, newest first" columns={STRETCH_COLUMNS} rows={shown.toReversed()} />
      </div>
    </>
  );
}

const STRETCH_COLUMNS: readonly TableColumn<PastStretch>[] = [
  { head: 'Until', cell: ({ to }) => <When at={to} /> },
  { head: 'Time', cell: ({ from, to }) => durationWords(from, to) },
  { head: 'Sold', isNumber: true, cell: ({ sold, floor }) => <Pieces count={sold} floor={floor} /> },
  { head: 'A day', isNumber: true, cell: (stretch) => <PerDay stretch={stretch} /> },
  {
    head: 'For',
    isNumber: true,
    cell: ({ value, floor, ...unit }) => <Money amount={value} unit={unit} floor={floor} withCurrency />,
  },
];

function PerDay({ stretch }: { readonly stretch: PastStretch }) {
  const rate = ratePerDay(stretch);
  if (rate === null) return <Absent />;
  return (
    <>
      {stretch.floor ? 'at least ' : ''}
      {roundWords(rate)}
    </>
  );
}

interface ColumnsBlockProps {
  readonly columns: readonly ColumnTrend[];
  readonly trend: MachineTrend;
  readonly which: string;
  readonly number: number;
}

function ColumnsBlock({ columns, trend, which, number }: ColumnsBlockProps) {
  const last = trend.stretches.slice(-LISTED_BY_COLUMN);
  const suffix = number === 1 ? '' : `-${number}`;
  return (
    <section>
      <h2 id={`columns${suffix}`}>Columns{which}</h2>
      <p>
        Days until empty are counted from the last read, <When at={trend.until} />. In brackets: where it lies 95 times
        in 100.
      </p>
      {columns.length === 0 ? (
        <p>The reads have no columns.</p>
      ) : (
        <>
          <div class="beside">
            <figure>
              <EmptyCharts columns={columns} id={`empty${suffix}`} />
            </figure>
            <DataTable
              caption={`How columns sell and how long they last${which}`}
              columns={COLUMN_COLUMNS}
              rows={columns}
            />
          </div>
          <DataTable
            caption={`Sold by column${which}, in the last ${plural(last.length, 'stretch', 'stretches')}`}
            columns={byStretch(last)}
            rows={columns}
          />
        </>
      )}
    </section>
  );
}

const COLUMN_COLUMNS: readonly TableColumn<ColumnTrend>[] = [
  {
    head: 'Column',
    cell: ({ column, product }) => (
      <>
        <Shown text={column} max={20} />
        {product === null ? null : (
          <span class="faint">
            {' '}
            <Shown text={product} max={60} />
          </span>
        )}
      </>
    ),
  },
  { head: 'Sold', isNumber: true, cell: ({ sold }) => <Pieces count={sold} /> },
  { head: 'In days', isNumber: true, cell: ({ days }) => (days === null ? <Absent /> : roundWords(days)) },
  { head: 'A day', isNumber: true, cell: ({ perDay }) => (perDay === null ? <Absent /> : estimateWords(perDay)) },
  { head: 'Left', isNumber: true, cell: ({ left }) => <Pieces count={left} /> },
  { head: 'Par', isNumber: true, cell: ({ par }) => <Pieces count={par} /> },
  { head: 'Days until empty', cell: ({ empty, why }) => (empty === null ? `Not said: ${why}` : waitWords(empty)) },
  { head: 'In doubt', cell: ({ doubts }) => doubts.map((doubt) => DOUBT_WORDS[doubt]).join('; ') },
];

/** A column of the table for each stretch; its head is when it ended. */
function byStretch(stretches: readonly PastStretch[]): readonly TableColumn<ColumnTrend>[] {
  return [
    { head: 'Column', cell: ({ column }) => <Shown text={column} max={20} /> },
    ...stretches.map((stretch, place): TableColumn<ColumnTrend> => {
      const found = new Map(stretch.columns.map((one) => [one.column, one.sold]));
      const days = roundWords(minutesOf(stretch) / 1440);
      return {
        head: `${place + 1}. ${days} d until ${timeWords(stretch.to)}`,
        isNumber: true,
        cell: ({ column }) => <Pieces count={found.get(column) ?? null} floor={stretch.floor} />,
      };
    }),
  ];
}

function measureColumn(column: ColumnTrend, { stretches }: MachineTrend): number {
  const parts = (
    <>
      <TableRow columns={COLUMN_COLUMNS} row={column} place={0} />
      <TableRow columns={byStretch(stretches.slice(-LISTED_BY_COLUMN))} row={column} place={0} />
      <EmptyCharts columns={[column]} id="measured" />
    </>
  );
  return byteLength(renderPart(parts));
}

function Method() {
  return (
    <section>
      <h2 id="method">How this was worked out</h2>
      <p>
        Counted are paid vends between reads; what was sold within a stretch is not known by the hour. Vends are taken
        to come at one rate, each by itself (a Poisson process): limits for a number a day are the exact ones of a
        Poisson count (Garwood 1936). Limits for the days until a column is empty hold how well the rate is known as
        well as chance. Sales that follow the week, a column that was empty for a while, or free and test vends make
        them less sure than that.
      </p>
      <p>
        What is left is par less what was vended since the last fill, which is taken to have filled to par unless the
        captures list says otherwise. Where par or the fill is not known, nothing is said.
      </p>
    </section>
  );
}
