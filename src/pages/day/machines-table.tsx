import type { Count } from '../../model/index.js';
import { Absent, DataTable, Mark, Money, Pieces, Shown, type Site, type TableColumn, When } from '../frame/index.js';
import type { MachineLine } from './day-digest.js';

/** What the table of machines needs besides them. */
export interface MachinesContext {
  readonly site: Site;
  /** How many things there are to look at, by machine. */
  readonly things: ReadonlyMap<string | null, Count>;
}

/** The table's columns; the first leads to the machine's page. */
export function machineColumns({ site, things }: MachinesContext): readonly TableColumn<MachineLine>[] {
  return [
    { head: 'Machine', cell: ({ machine }) => <MachineLink machine={machine} site={site} /> },
    { head: 'Location', cell: ({ location }) => <MaybeShown text={location} /> },
    { head: 'Route', cell: ({ route }) => <MaybeShown text={route} /> },
    { head: 'Capture', cell: (line) => <ReadMark line={line} /> },
    { head: 'Last read', cell: ({ lastRead }) => <When at={lastRead} /> },
    { head: 'Sold', isNumber: true, cell: ({ sold, isFloor }) => <Pieces count={sold} floor={isFloor} /> },
    {
      head: 'For',
      isNumber: true,
      cell: ({ value, isFloor, ...unit }) => <Money amount={value} unit={unit} floor={isFloor} withCurrency />,
    },
    { head: 'To look at', isNumber: true, cell: ({ machine }) => <Pieces count={things.get(machine) ?? 0} /> },
  ];
}

/** The machines of a day. */
export function MachinesTable({
  machines,
  caption,
  ...context
}: MachinesContext & { readonly machines: readonly MachineLine[]; readonly caption: string }) {
  if (machines.length === 0) return <p>No machine is known.</p>;
  return <DataTable caption={caption} columns={machineColumns(context)} rows={machines} />;
}

/** A machine's name, which leads to its page where it has one. */
export function MachineLink({ machine, site }: { readonly machine: string; readonly site: Site }) {
  const link = site.machinePages.linkTo(machine);
  const name = <Shown text={machine} />;
  return link === null ? name : <a href={link}>{name}</a>;
}

/** A text that a sheet need not give. */
export function MaybeShown({ text }: { readonly text: string | null }) {
  return text === null ? <Absent words="not stated" /> : <Shown text={text} />;
}

function ReadMark({ line: { reads, faulty, isKnown, isExpected } }: { readonly line: MachineLine }) {
  const known = isKnown ? null : ', on no roster';
  if (reads === 0 && !isExpected) return <span>not looked for{known}</span>;
  if (reads === 0) return <Mark tone="bad" sign="×" word="not read" />;
  const mark =
    faulty === reads ? (
      <Mark tone="bad" sign="×" word="read again" />
    ) : faulty > 0 ? (
      <Mark tone="warn" sign="?" word={`read, ${faulty} of ${reads} faulty`} />
    ) : (
      <Mark tone="good" sign="=" word={reads === 1 ? 'read' : `read ${reads} times`} />
    );
  return (
    <>
      {mark}
      {known}
    </>
  );
}
