import type { ExpectedLine, Visit } from '../../settlement/index.js';
import { baseName } from '../../sheets/index.js';
import { type CashAnchor, cashAnchor, DataTable, Money, Shown, type Site, type TableColumn } from '../frame/index.js';

/** One line of what makes up what is expected, with its visit. */
export interface VisitLine {
  readonly visit: Visit;
  readonly line: ExpectedLine;
}

/** The lines of visits; hand moves of nothing are left out. */
export function linesOf(visits: readonly Visit[]): VisitLine[] {
  return visits.flatMap((visit) =>
    visit.expectedLines
      .filter(({ what, amount }) => amount !== 0 || what === 'to-cash-box' || what === 'bills')
      .map((line) => ({ visit, line })),
  );
}

/** How what is expected is made up, line by line. */
export function ExpectedTable({ visits, site }: { readonly visits: readonly Visit[]; readonly site: Site }) {
  const rows = linesOf(visits);
  if (rows.length === 0) return null;
  return <DataTable caption="How what is expected is made up" columns={expectedColumns(site)} rows={rows} />;
}

const LINE_WORDS: Readonly<Record<ExpectedLine['what'], string>> = {
  'to-cash-box': 'coins to the cash box',
  'paid-out': 'coins paid out by hand',
  filled: 'coins filled by hand',
  'float-issued': 'float issued',
  bills: 'bills',
};

/** The figure of the machine's page that a line is; float is issued in the office. */
const ANCHORS: Readonly<Record<ExpectedLine['what'], CashAnchor | null>> = {
  'to-cash-box': 'toCashBox',
  'paid-out': 'byHand',
  filled: 'filled',
  'float-issued': null,
  bills: 'bills',
};

/** The table's columns. */
export function expectedColumns(site: Site): readonly TableColumn<VisitLine>[] {
  return [
    { head: 'Machine', cell: ({ visit }) => <Shown text={visit.machine} /> },
    { head: 'What', cell: ({ line }) => LINE_WORDS[line.what] },
    {
      head: 'Amount',
      isNumber: true,
      cell: ({ visit, line }) => <Money amount={line.amount} unit={visit} signed from={linkOf(visit, line, site)} />,
    },
    {
      head: 'From',
      cell: ({ line: { source } }) => (source === 'sheet' ? 'the count sheet' : "the machine's counters"),
    },
    { head: 'Capture, and the one counted from', isWide: true, cell: ({ visit }) => <Captures visit={visit} /> },
  ];
}

function linkOf({ machine }: Visit, { what, source }: ExpectedLine, site: Site): string | undefined {
  const page = site.machinePages.linkTo(machine);
  const figure = ANCHORS[what];
  return page === null || figure === null || source === 'sheet' ? undefined : `${page}#${cashAnchor(figure)}`;
}

function Captures({ visit: { capture, matchedBy, since } }: { readonly visit: Visit }) {
  return (
    <>
      {capture === null ? 'no capture' : <Shown text={baseName(capture)} />}
      {matchedBy === null ? '' : ` (matched by ${matchedBy})`}
      {since === null ? ', since not known' : ', since '}
      {since === null ? null : <Shown text={baseName(since)} />}
    </>
  );
}
