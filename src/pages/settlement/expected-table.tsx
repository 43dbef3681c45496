import type { ExpectedLine, Visit } from '../../settlement/index.js';
import { baseName } from '../../sheets/index.js';
import { DataTable, Money, Shown, type TableColumn } from '../frame/index.js';

/** What the lines of what is expected are called. */
const LINES: readonly (readonly [ExpectedLine['what'], string])[] = [
  ['to-cash-box', 'Coins to cash box'],
  ['paid-out', 'Paid out by hand'],
  ['filled', 'Filled by hand'],
  ['float-issued', 'Float issued'],
  ['bills', 'Bills'],
];

/** How what is expected is made up: each part in a column of its own. */
export function ExpectedTable({ visits }: { readonly visits: readonly Visit[] }) {
  const made = visits.filter(({ expectedLines }) => expectedLines.length > 0);
  if (made.length === 0) return null;
  const used = new Set(made.flatMap(({ expectedLines }) => expectedLines.map(({ what }) => what)));
  const columns = expectedColumns(used);
  return <DataTable caption="How what is expected is made up, from the counters" columns={columns} rows={made} />;
}

/** The table's columns; parts that no visit has are left out. */
export function expectedColumns(used: ReadonlySet<ExpectedLine['what']>): readonly TableColumn<Visit>[] {
  const parts = LINES.filter(([what]) => used.has(what));
  return [
    { head: 'Machine', cell: ({ machine }) => <Shown text={machine} /> },
    ...parts.map(
      ([what, head]): TableColumn<Visit> => ({
        head,
        isNumber: true,
        cell: (visit) => <Part visit={visit} what={what} />,
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
}

function Part({ visit, what }: PartProps) {
  const line = visit.expectedLines.find((one) => one.what === what);
  if (line === undefined) return 'none';
  return (
    <>
      <Money amount={line.amount} unit={visit} signed />
      {line.source === 'sheet' ? <div>from the sheet</div> : null}
    </>
  );
}

function Capture({ file }: { readonly file: string | null }) {
  return file === null ? 'none' : <Shown text={baseName(file)} />;
}

/** All parts there can be: for measuring. */
export const ALL_LINES: ReadonlySet<ExpectedLine['what']> = new Set(LINES.map(([what]) => what));
