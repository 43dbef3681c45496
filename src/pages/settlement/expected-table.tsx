import type { ExpectedLine, Visit } from '../../settlement/index.js';
import { baseName } from '../../sheets/index.js';
import { type CashAnchor, cashAnchor, DataTable, Money, Shown, type Site, type TableColumn } from '../frame/index.js';

/** What the lines of what is expected are called, and the figures of the machine's page that they are. */
const LINES: readonly (readonly [ExpectedLine['what'], string, CashAnchor | null])[] = [
  ['to-cash-box', 'Coins to cash box', 'toCashBox'],
  ['paid-out', 'Paid out by hand', 'byHand'],
  ['filled', 'Filled by hand', 'filled'],
  ['float-issued', 'Float issued', null],
  ['bills', 'Bills', 'bills'],
];

/** How what is expected is made up: each part in a column of its own. */
export function ExpectedTable({ visits, site }: { readonly visits: readonly Visit[]; readonly site: Site }) {
  const made = visits.filter(({ expectedLines }) => expectedLines.length > 0);
  if (made.length === 0) return null;
  const used = new Set(made.flatMap(({ expectedLines }) => expectedLines.map(({ what }) => what)));
  const columns = expectedColumns(site, used);
  return <DataTable caption="How what is expected is made up, from the counters" columns={columns} rows={made} />;
}

/** The table's columns; parts that no visit has are left out. */
export function expectedColumns(site: Site, used: ReadonlySet<ExpectedLine['what']>): readonly TableColumn<Visit>[] {
  const parts = LINES.filter(([what]) => used.has(what));
  return [
    { head: 'Machine', cell: ({ machine }) => <Shown text={machine} /> },
    ...parts.map(
      ([what, head, figure]): TableColumn<Visit> => ({
        head,
        isNumber: true,
        cell: (visit) => <Part visit={visit} what={what} figure={figure} site={site} />,
      }),
    ),
    { head: 'Capture', cell: ({ capture }) => <Capture file={capture} /> },
    { head: 'Matched by', cell: ({ matchedBy }) => matchedBy ?? 'nothing' },
    { head: 'Counted since', cell: ({ since }) => <Capture file={since} /> },
  ];
}

interface PartProps {
  readonly visit: Visit;
  readonly what: ExpectedLine['what'];
  readonly figure: CashAnchor | null;
  readonly site: Site;
}

function Part({ visit, what, figure, site }: PartProps) {
  const line = visit.expectedLines.find((one) => one.what === what);
  if (line === undefined) return 'none';
  const page = site.machinePages.linkTo(visit.machine);
  const isCounted = line.source === 'counters' && page !== null && figure !== null;
  const from = isCounted ? `${page}#${cashAnchor(figure)}` : undefined;
  return (
    <>
      <Money amount={line.amount} unit={visit} signed from={from} />
      {line.source === 'sheet' ? <div>from the sheet</div> : null}
    </>
  );
}

function Capture({ file }: { readonly file: string | null }) {
  return file === null ? 'none' : <Shown text={baseName(file)} />;
}

/** All parts there can be: for measuring. */
export const ALL_LINES: ReadonlySet<ExpectedLine['what']> = new Set(LINES.map(([what]) => what));
