import type { Day } from '../../day/index.js';
import { plural } from '../../report/text/words.js';
import { DataTable, Money, Pieces, Shown, type Site, type TableColumn, TableRow, When } from '../frame/index.js';
import { type DayDigest, type FileLine, LONGEST_LINE, LONGEST_NAME, type MachineLine } from './day-digest.js';
import { MachineLink, MaybeShown } from './machines-table.js';
import { type Parted, type PartedList, partList } from './parted-list.js';

/** A list of what did not come in as it should, of whatever kind. */
export type CameInList = Parted<unknown>;

const FIRST_BYTES = 16_000;

/** What did not come in as it should, list by list; those with nothing in them are left out. */
export function listWhatCameIn(digest: DayDigest, site: Site): CameInList[] {
  const { machines } = digest;
  const machineColumns = columnsOfMachines(site);
  const ofMachines = (id: string, title: string, lines: readonly MachineLine[]): CameInList[] =>
    partTable({ id, title, items: lines, columns: machineColumns }, site);
  const ofFiles = (id: string, title: string, lines: readonly FileLine[]): CameInList[] =>
    partTable({ id, title, items: lines, columns: FILE_COLUMNS }, site);
  return [
    ...ofMachines(
      'not-read',
      'Machines not read',
      machines.filter(({ isExpected, reads }) => isExpected && reads === 0),
    ),
    ...ofMachines(
      'on-no-roster',
      'Machines read that no roster has',
      machines.filter(({ isKnown, reads }) => !isKnown && reads > 0),
    ),
    ...ofFiles('read-again', 'Files to be read again', digest.readAgain),
    ...ofFiles('set-aside', 'Files set aside: no capture is in them', digest.setAside),
    ...ofFiles('doubtful', 'Files in doubt', digest.doubtful),
    ...ofFiles('came-again', 'Reads that came more than once', digest.duplicates),
  ];
}

interface PartedTable<Row> extends Pick<PartedList<Row>, 'id' | 'title' | 'items'> {
  readonly columns: readonly TableColumn<Row>[];
}

function partTable<Row>({ id, title, items, columns }: PartedTable<Row>, site: Site): CameInList[] {
  if (items.length === 0) return [];
  const parted: CameInList = partList(
    {
      id,
      title,
      items,
      showOne: (row) => <TableRow columns={columns} row={row} place={0} />,
      show: (rows, _, caption) => <DataTable caption={caption} columns={columns} rows={rows} />,
      first: { bytes: FIRST_BYTES, items: 50 },
    },
    site,
  );
  return [parted];
}

const FILE_COLUMNS: readonly TableColumn<FileLine>[] = [
  { head: 'File', cell: ({ file }) => <Shown text={file} max={LONGEST_NAME} /> },
  { head: 'What is said of it', isWide: true, cell: ({ said }) => <Shown text={said} max={LONGEST_LINE} /> },
];

function columnsOfMachines(site: Site): readonly TableColumn<MachineLine>[] {
  return [
    { head: 'Machine', cell: ({ machine }) => <MachineLink machine={machine} site={site} /> },
    { head: 'Location', cell: ({ location }) => <MaybeShown text={location} /> },
    { head: 'Route', cell: ({ route }) => <MaybeShown text={route} /> },
    { head: 'Driver', cell: ({ driver }) => <MaybeShown text={driver} /> },
    { head: 'Last read', cell: ({ lastRead }) => <When at={lastRead} /> },
  ];
}

/** What came in and was sold, in numbers. */
export function CameInFacts({ day: { files, machines, totals } }: { readonly day: Day }) {
  return (
    <dl class="facts">
      <dt>Files</dt>
      <dd>
        {files.files}: {files.sound} sound, {files.doubtful} doubtful, {files.readAgain - files.setAside} to be read
        again, {files.setAside} set aside
      </dd>
      <dt>Reads in them</dt>
      <dd>
        {files.reads}, of which {files.duplicates} came more than once and count once
      </dd>
      <dt>Machines read</dt>
      <dd>
        {machines.read} of {machines.expected}, and {plural(machines.unknown, 'machine')} that no roster has
      </dd>
      {totals.map(({ sold, value, openIntervals, ...unit }) => (
        <>
          <dt>Sold</dt>
          <dd>
            <Pieces count={sold} /> for <Money amount={value} unit={unit} withCurrency />
            {openIntervals === 0 ? null : `; what was sold in ${plural(openIntervals, 'interval')} more is not known`}
          </dd>
        </>
      ))}
    </dl>
  );
}
