import type { VNode } from 'preact';
import { type CautionName, cautionsOf, type Finding } from '../../findings/index.js';
import type { Interval } from '../../interval/index.js';
import { bestTime } from '../../model/index.js';
import { plural } from '../../report/text/words.js';
import type { Roster } from '../../sheets/index.js';
import { AttentionEntry } from '../day/attention-list.js';
import {
  byteLength,
  Cautions,
  DAY_PAGE,
  Findings,
  LARGEST_PAGE,
  Page,
  type PageFile,
  Parts,
  pageOut,
  renderPage,
  renderPart,
  Shown,
  type Site,
  VisitMark,
  When,
} from '../frame/index.js';
import type { PagesBatch } from '../machine-pages-maker.js';
import { makeTrendOf } from '../trend/trend-pages.js';
import { listActiveFaults } from './active-faults.js';
import { MOST_COLUMNS_SHOWN, makeIntervalBlocks } from './interval-blocks.js';
import { gatherMachines, type MachineGiven } from './machine-given.js';
import { TimeLinePart } from './time-line-part.js';
import { TubesPart } from './tubes-part.js';

/** Bytes of blocks on one page; what is left is for the frame and the cautions. */
const PAGE_BYTES = 420_000;

/** The pages of the machines of a batch, in parts where one is too long: each machine's own, then its trend. */
export function* makeMachinePages(batch: PagesBatch, site: Site): Generator<PageFile, void, undefined> {
  for (const given of gatherMachines(batch)) {
    const trend = makeTrendOf(given, batch.inputs, site);
    yield* makeOne({ given, trend: trend[0]?.name ?? null, roster: batch.inputs.roster, site });
    yield* trend;
  }
}

interface OneGiven {
  readonly given: MachineGiven;
  /** The file of its trend, where it has one. */
  readonly trend: string | null;
  readonly roster: Roster;
  readonly site: Site;
}

/** The page of one machine, as many files as it takes. */
function makeOne({ given, trend, roster, site }: OneGiven): PageFile[] {
  const { machine } = given;
  const faults = given.latest === null ? [] : listActiveFaults(given.latest, roster);
  const cautions = cautionsOf([...given.items, ...given.findings, ...faults]);
  const title = `Machine ${machine}`;
  const blocksOf = (isLong: boolean): VNode[] => makeBlocks({ given, trend, faults, cautions, site, isLong });
  // Nearly all fit on one page; only where that turns out too long is anything measured.
  const name = site.machinePages.of(machine);
  const whole = renderPage(
    <Page title={title} site={site} here={name}>
      {blocksOf(false)}
      <Cautions cautions={cautions} />
    </Page>,
  );
  if (byteLength(whole) <= LARGEST_PAGE) return [{ name, text: whole }];
  const pages = pageOut(blocksOf(true), (block) => byteLength(renderPart(block)), { bytes: PAGE_BYTES });
  const names = pages.map((_, place) => site.machinePages.of(machine, place + 1));
  return pages.map((own, place) => {
    const page = (
      <Page
        title={pages.length === 1 ? title : `${title}, part ${place + 1} of ${pages.length}`}
        site={site}
        here={names[place]!}
      >
        {own}
        <Cautions cautions={cautions} />
        <Parts of={title} hrefs={names} here={place} />
      </Page>
    );
    return { name: names[place]!, text: renderPage(page) };
  });
}

interface BlocksGiven extends Omit<OneGiven, 'roster'> {
  readonly faults: readonly Finding[];
  readonly cautions: readonly CautionName[];
  readonly isLong: boolean;
}

function makeBlocks({ given, trend, faults, cautions, site, isLong }: BlocksGiven): VNode[] {
  const { refill, reads, latest, machine } = given;
  const intervals = shownOf(given.intervals);
  const left = given.intervals.length - intervals.length;
  return [
    <Facts key="facts" given={given} trend={trend} />,
    <ToLookAt key="attention" given={given} cautions={cautions} site={site} />,
    <section key="reads">
      <h2 id="reads">Reads</h2>
      <TimeLinePart reads={reads} />
    </section>,
    ...(intervals.length === 0 ? [<NoInterval key="none" given={given} />] : []),
    ...intervals.flatMap((interval, place) => makeIntervalBlocks({ interval, number: place + 1, refill, isLong })),
    ...(left === 0 ? [] : [<p key="left">{plural(left, 'earlier interval')} of the day not shown here.</p>]),
    <section key="tubes">
      <h2 id="tubes">Coin tubes</h2>
      <TubesPart latest={latest} />
    </section>,
    <section key="faults">
      <h2 id="faults">Faults active</h2>
      <ActiveFaults faults={faults} given={given} />
    </section>,
    <section key="findings">
      <h2 id="findings">What was found</h2>
      {given.findings.length === 0 ? (
        <p>Nothing was found on the day’s reads of this machine.</p>
      ) : (
        <FittingFindings findings={given.findings} machine={machine} />
      )}
    </section>,
  ];
}

/** Intervals of the day that are shown, the newest: of a machine that was read all day long not all have room. */
function shownOf(intervals: readonly Interval[]): readonly Interval[] {
  let columns = 0;
  return intervals.slice(0, MOST_INTERVALS).filter((interval, place) => {
    columns += interval.columns.length;
    return place === 0 || columns <= MOST_COLUMNS_SHOWN;
  });
}

const MOST_INTERVALS = 24;

function Facts({ given, trend }: Pick<BlocksGiven, 'given' | 'trend'>) {
  const { row, location, reads, visits, latest } = given;
  const identity = latest?.read.machine ?? reads.at(-1)?.taken.read.machine ?? null;
  const facts: readonly (readonly [string, string | null])[] = [
    ['Location', location],
    ['Route', row?.route ?? null],
    ['Driver', row?.driver ?? null],
    ['Asset number', identity?.asset ?? row?.asset ?? null],
    ['Serial number', identity?.serial ?? row?.serial ?? null],
    ['Model', latest?.read.machine.model ?? null],
  ];
  return (
    <dl class="facts">
      {facts.map(([label, text]) =>
        text === null ? null : (
          <>
            <dt>{label}</dt>
            <dd>
              <Shown text={text} />
            </dd>
          </>
        ),
      )}
      <dt>Roster</dt>
      <dd>{row === null ? 'on no roster' : 'on the roster'}</dd>
      {trend === null ? null : (
        <>
          <dt>Trend</dt>
          <dd>
            <a href={trend}>Sales over its history, and how long columns last</a>
          </dd>
        </>
      )}
      {visits.slice(0, MOST_VISITS).map((visit) => (
        <>
          <dt>Visit</dt>
          <dd>
            <When at={visit.visitedAt} /> <VisitMark state={visit.state} />
            {visit.bag === null ? null : (
              <>
                {' '}
                bag <Shown text={visit.bag} max={60} />
              </>
            )}
          </dd>
        </>
      ))}
    </dl>
  );
}

const MOST_VISITS = 20;
/** Bytes of things to look at on the page; the day's page has them all. */
const ITEM_BYTES = 100_000;

function ToLookAt({ given: { items }, cautions, site }: Pick<BlocksGiven, 'given' | 'cautions' | 'site'>) {
  const entries = items.map((item) => (
    <AttentionEntry key={item.cause} item={item} site={site} level={3} cautions={cautions} />
  ));
  const [shown] = pageOut(entries, (entry) => byteLength(renderPart(entry)), { bytes: ITEM_BYTES });
  const left = items.length - shown!.length;
  return (
    <section>
      <h2 id="attention">To look at, worst first</h2>
      {items.length === 0 ? <p>Nothing to look at.</p> : <ol class="look">{shown}</ol>}
      {left === 0 ? null : (
        <p>
          And {plural(left, 'more thing')}, on <a href={DAY_PAGE}>the day’s page</a>.
        </p>
      )}
    </section>
  );
}

function NoInterval({ given: { reads, latest } }: { readonly given: MachineGiven }) {
  const last = latest === null ? null : bestTime(latest);
  return (
    <section>
      <h2 id="sales">Sales and cash</h2>
      <p>
        What was sold is not known: no read of the day has a usable read before it.
        {reads.length === 0 ? ' This machine was not read.' : ''}
        {last === null ? null : (
          <>
            {' '}
            The last usable read is of <When at={last} />.
          </>
        )}
      </p>
    </section>
  );
}

function ActiveFaults({ faults, given }: { readonly faults: readonly Finding[]; readonly given: MachineGiven }) {
  if (given.latest === null) return <p>No usable read says whether faults are active.</p>;
  const at = <When at={bestTime(given.latest)} />;
  if (faults.length === 0) return <p>None reported at the last usable read, {at}.</p>;
  return (
    <>
      <p>
        {plural(faults.length, 'fault')} reported at the last usable read, {at}.
      </p>
      <FittingFindings findings={faults} machine={given.machine} />
    </>
  );
}

const FINDING_BYTES = 100_000;
const FEWER = [60, 30, 15, 6, 3, 1];

/** As many findings as there is room for, the worst; the list itself says how many more there are. */
function FittingFindings({ findings, machine }: { readonly findings: readonly Finding[]; readonly machine: string }) {
  const lists = FEWER.map((most) => () => <Findings findings={findings} machine={machine} most={most} />);
  const fits = lists.find((make) => byteLength(renderPart(make())) <= FINDING_BYTES) ?? lists.at(-1)!;
  return fits();
}
