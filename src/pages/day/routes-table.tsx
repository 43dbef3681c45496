import type { ComponentChildren } from 'preact';
import { plural } from '../../report/text/words.js';
import { DataTable, Mark, Money, Pieces, Shown, type TableColumn } from '../frame/index.js';
import type { SettlementLine } from '../settlement/index.js';
import type { RouteLine, SalesSum } from './route-lines.js';

/** The columns of the table of routes. */
export const ROUTE_COLUMNS: readonly TableColumn<RouteLine>[] = [
  { head: 'Route', cell: ({ route }) => (route === null ? 'No route' : <Shown text={route} />) },
  { head: 'Machines read', isNumber: true, cell: ({ expected, read }) => `${read} of ${expected}` },
  { head: 'Sold', isNumber: true, cell: ({ sums }) => lines(sums.map(soldOf)) },
  { head: 'For', isNumber: true, cell: ({ sums }) => lines(sums.map(worthOf)) },
  { head: 'To look at', isNumber: true, cell: ({ toLookAt }) => <Pieces count={toLookAt} /> },
  {
    head: 'Settlement',
    isWide: true,
    cell: ({ settlements }) => (settlements.length === 0 ? 'none of this day' : lines(settlements.map(settled))),
  },
];

/** The routes of a day. */
export function RoutesTable({ routes, caption }: { readonly routes: readonly RouteLine[]; readonly caption: string }) {
  if (routes.length === 0) return <p>No route is known.</p>;
  return <DataTable caption={caption} columns={ROUTE_COLUMNS} rows={routes} />;
}

function lines(cells: readonly ComponentChildren[]) {
  return cells.map((cell, place) => <div key={place}>{cell}</div>);
}

function soldOf({ sold, isFloor, unknown }: SalesSum) {
  return (
    <>
      <Pieces count={sold} floor={isFloor} />
      {unknown === 0 ? null : ` and ${plural(unknown, 'machine')} not known`}
    </>
  );
}

function worthOf({ value, isFloor, ...unit }: SalesSum) {
  return <Money amount={value} unit={unit} floor={isFloor} withCurrency />;
}

function settled({ page, overShort, settledVisits, openVisits, closedBy, isChangedSince, ...unit }: SettlementLine) {
  const total = overShort;
  return (
    <>
      <a href={page}>
        {settledVisits === 0 ? (
          'nothing settled'
        ) : total === 0 ? (
          'no difference'
        ) : (
          <>
            <Money amount={total === null ? null : Math.abs(total)} unit={unit} withCurrency />
            {total === null ? '' : total < 0 ? ' short' : ' over'}
          </>
        )}
      </a>{' '}
      on {plural(settledVisits, 'settled visit')}
      {openVisits === 0 ? null : `, ${plural(openVisits, 'visit')} open`}{' '}
      {closedBy === null ? (
        <Mark tone="plain" sign="·" word="not closed" />
      ) : (
        <Mark tone="good" sign="=" word={`closed, entry ${closedBy}`} />
      )}
      {isChangedSince ? ' changed since' : null}
    </>
  );
}
