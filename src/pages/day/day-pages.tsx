import type { AttentionItem } from '../../attention/index.js';
import type { Day } from '../../day/index.js';
import { cautionsOf } from '../../findings/index.js';
import { type Count, groupBy } from '../../model/index.js';
import { Cautions, DAY_PAGE, Page, type PageFile, renderPage, type Site, TableRow } from '../frame/index.js';
import type { SettlementLine } from '../settlement/index.js';
import { AttentionEntry, AttentionList } from './attention-list.js';
import { CameInFacts, type CameInList, listWhatCameIn } from './came-in.js';
import type { DayDigest } from './day-digest.js';
import { writeHeadline } from './headline.js';
import { MachinesTable, machineColumns } from './machines-table.js';
import { type Parted, partList } from './parted-list.js';
import { compareNames, lineUpRoutes } from './route-lines.js';
import { ROUTE_COLUMNS, RoutesTable } from './routes-table.js';

/** What the day's pages are made from. */
export interface DayPagesGiven {
  /** Its rows and settlements are not looked at, and may be left out. */
  readonly day: Day;
  readonly digest: DayDigest;
  readonly settlements: readonly SettlementLine[];
}

/** How much of each list stands on the day's page: together, and with the frame, less than a page may have. */
const FIRST_OF = {
  attention: { bytes: 120_000, items: 60 },
  routes: { bytes: 60_000, items: 100 },
  machines: { bytes: 100_000, items: 200 },
} as const;

/** The day's page, and the pages that hold what it has no room for. */
export function makeDayPages({ day, digest, settlements }: DayPagesGiven, site: Site): PageFile[] {
  const things = countThings(day.attention);
  const attention = partAttention(day.attention, site);
  const machines = digest.machines.toSorted((a, b) => compareNames(a.machine, b.machine));
  const routeLines = lineUpRoutes(machines, settlements, things);
  const routes = partList(
    {
      id: 'routes',
      title: 'Routes: captures, sales, settlement',
      items: routeLines,
      showOne: (line) => <TableRow columns={ROUTE_COLUMNS} row={line} place={0} />,
      show: (lines, _, caption) => <RoutesTable routes={lines} caption={caption} />,
      first: FIRST_OF.routes,
    },
    site,
  );
  const columns = machineColumns({ site, things });
  const list = partList(
    {
      id: 'machines',
      title: 'Machines: captures and sales',
      items: machines,
      showOne: (line) => <TableRow columns={columns} row={line} place={0} />,
      show: (lines, _, caption) => <MachinesTable machines={lines} caption={caption} site={site} things={things} />,
      first: FIRST_OF.machines,
    },
    site,
  );
  const cameIn = listWhatCameIn(digest, site);
  const page = <DayPage day={day} site={site} attention={attention} routes={routes} machines={list} cameIn={cameIn} />;
  return [
    { name: DAY_PAGE, text: renderPage(page) },
    ...[attention, routes, list, ...cameIn].flatMap(({ files }) => files),
  ];
}

function countThings(items: readonly AttentionItem[]): Map<string | null, Count> {
  return new Map([...groupBy(items, ({ machine }) => machine)].map(([machine, own]) => [machine, own.length]));
}

function partAttention(items: readonly AttentionItem[], site: Site): Parted<AttentionItem> {
  return partList(
    {
      id: 'attention',
      title: 'To look at, worst first',
      items,
      showOne: (item) => <AttentionEntry item={item} site={site} level={3} cautions={cautionsOf([item])} />,
      show: (own, start) => <AttentionList items={own} start={start + 1} site={site} level={start === 0 ? 3 : 2} />,
      cautionsOf,
      first: FIRST_OF.attention,
    },
    site,
  );
}

interface DayPageProps {
  readonly day: Day;
  readonly site: Site;
  readonly attention: Parted<AttentionItem>;
  readonly routes: Parted<unknown>;
  readonly machines: Parted<unknown>;
  readonly cameIn: readonly CameInList[];
}

function DayPage({ day, site, attention, routes, machines, cameIn }: DayPageProps) {
  return (
    <Page title={`Day ${day.day}`} site={site} here={DAY_PAGE}>
      <p>{writeHeadline(day)}</p>
      <h2 id="attention">To look at, worst first</h2>
      {attention.first}
      <Cautions cautions={cautionsOf(attention.firstItems)} />
      <h2 id="routes">Routes</h2>
      {routes.first}
      <h2 id="machines">Machines</h2>
      {machines.first}
      <h2 id="files">What came in, and what did not</h2>
      <CameInFacts day={day} />
      {cameIn.map(({ first }) => first)}
    </Page>
  );
}
