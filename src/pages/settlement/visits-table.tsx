import type { Minor } from '../../model/index.js';
import { unitWords } from '../../report/text/words.js';
import { type CashByKind, isInDoubt, type Visit } from '../../settlement/index.js';
import { DataTable, Money, Shown, type Site, type TableColumn, VisitMark, When } from '../frame/index.js';

/** Visits as a sheet shows them: what was expected, counted, and the difference, by kind. */
export function VisitsTable({ visits, site }: { readonly visits: readonly Visit[]; readonly site: Site }) {
  const money = visits[0] === undefined ? '' : `, in ${unitWords(visits[0])}`;
  const caption = `Visits: expected, counted, over (+) or short (−)${money}`;
  return <DataTable caption={caption} columns={visitColumns(site)} rows={visits} />;
}

/** The table's columns; the first leads to the machine's page. */
export function visitColumns(site: Site): readonly TableColumn<Visit>[] {
  return [
    { head: 'Machine', cell: (visit) => <Whereabouts visit={visit} site={site} /> },
    { head: 'Bag and visit', cell: (visit) => <BagAndTime visit={visit} /> },
    { head: 'State', cell: (visit) => <State visit={visit} /> },
    { head: 'Expected coins', isNumber: true, cell: (visit) => <Expected visit={visit} kind="coins" /> },
    { head: 'Expected bills', isNumber: true, cell: (visit) => <Expected visit={visit} kind="bills" /> },
    moneyColumn('Counted coins', ({ counted }) => counted.coins),
    moneyColumn('Counted bills', ({ counted }) => counted.bills),
    moneyColumn('Coins over or short', ({ overShort }) => overShort.coins, true),
    moneyColumn('Bills over or short', ({ overShort }) => overShort.bills, true),
    moneyColumn('Total over or short', ({ overShort }) => overShort.total, true),
  ];
}

function moneyColumn(head: string, of: (visit: Visit) => Minor | null, signed = false): TableColumn<Visit> {
  return { head, isNumber: true, cell: (visit) => <Money amount={of(visit)} unit={visit} signed={signed} /> };
}

function Whereabouts({ visit: { machine, location }, site }: { readonly visit: Visit; readonly site: Site }) {
  const link = site.machinePages.linkTo(machine);
  const name = <Shown text={machine} />;
  return (
    <>
      {link === null ? name : <a href={link}>{name}</a>}
      {location === null ? null : (
        <div class="faint">
          <Shown text={location} />
        </div>
      )}
    </>
  );
}

function State({ visit }: { readonly visit: Visit }) {
  return (
    <>
      <VisitMark state={visit.state} />
      {isInDoubt(visit) ? <div>in doubt</div> : null}
    </>
  );
}

function BagAndTime({ visit: { bag, visitedAt, jointBags } }: { readonly visit: Visit }) {
  return (
    <>
      {bag === null ? 'no bag named' : <Shown text={bag} />}
      <div>
        <When at={visitedAt} />
      </div>
      {jointBags.length === 0 ? null : (
        <div>
          together: <Shown text={jointBags.join(', ')} />
        </div>
      )}
    </>
  );
}

/** What is expected of a kind: how it is made up stands in a table of its own. */
function Expected({ visit, kind }: { readonly visit: Visit; readonly kind: keyof CashByKind }) {
  return <Money amount={visit.expected[kind]} unit={visit} floor={visit.expectedIsFloor} />;
}
