import { add, type Minor } from '../../model/index.js';
import { nameDriver } from '../../report/text/closing-text.js';
import { type MoneyUnit, plural, unitWords } from '../../report/text/words.js';
import type { CashByKind, DriverTotals, SettlementTotals } from '../../settlement/index.js';
import { DataTable, Money, Pieces, Shown, type TableColumn } from '../frame/index.js';

/** One line of sums. */
interface SumLine {
  readonly name: string;
  readonly expected: Minor | null;
  readonly counted: Minor | null;
  readonly overShort: Minor | null;
}

function sumColumns(head: string, unit: MoneyUnit): readonly TableColumn<SumLine>[] {
  return [
    { head, cell: ({ name }) => <Shown text={name} /> },
    { head: 'Expected', isNumber: true, cell: ({ expected }) => <Money amount={expected} unit={unit} /> },
    { head: 'Counted', isNumber: true, cell: ({ counted }) => <Money amount={counted} unit={unit} /> },
    {
      head: 'Over (+) or short (−)',
      isNumber: true,
      cell: ({ overShort }) => <Money amount={overShort} unit={unit} signed />,
    },
  ];
}

/** Coins and bills together; a kind of which nothing was counted is not in the sum where the other is known alone. */
export function totalOf({ coins, bills }: CashByKind): Minor | null {
  return add(coins, bills);
}

/** What sums are over. */
export interface TotalsProps {
  readonly totals: SettlementTotals;
  readonly unit: MoneyUnit;
  readonly name: string;
}

/** Sums over the settled visits, by kind; and what was sold, and what stays open. */
export function TotalsTable({ totals, unit, name }: TotalsProps) {
  const { expected, counted, overShort, settledVisits, openVisits, countedOpen, sold, value, cardSales, loss } = totals;
  const lineOf = (kind: keyof CashByKind): SumLine => ({
    name: kind,
    expected: expected[kind],
    counted: counted[kind],
    overShort: overShort[kind],
  });
  const columns = sumColumns('Kind', unit);
  const total = { name: 'total', expected: totalOf(expected), counted: totalOf(counted), overShort: overShort.total };
  return (
    <>
      <DataTable
        caption={`Sums over ${plural(settledVisits, 'settled visit')}: ${name}, in ${unitWords(unit)}`}
        columns={columns}
        rows={[lineOf('coins'), lineOf('bills')]}
        footer={columns.map(({ cell }) => cell(total, 0))}
      />
      <p>
        Sold <Pieces count={sold} /> for <Money amount={value} unit={unit} />, of that by card{' '}
        <Money amount={cardSales} unit={unit} />.
        {loss === null ? null : (
          <>
            {' '}
            Lost by prices off plan: <Money amount={loss} unit={unit} />.
          </>
        )}
      </p>
      {openVisits === 0 ? null : (
        <p>
          {plural(openVisits, 'visit')} still open; counted on them, and in no sum above: coins{' '}
          <Money amount={countedOpen.coins} unit={unit} />, bills <Money amount={countedOpen.bills} unit={unit} />.
        </p>
      )}
    </>
  );
}

/** Sums driver by driver. */
export function DriversTable({
  drivers,
  unit,
}: {
  readonly drivers: readonly DriverTotals[];
  readonly unit: MoneyUnit;
}) {
  const rows = drivers.map(({ driver, totals: { expected, counted, overShort } }) => ({
    name: nameDriver(driver),
    expected: totalOf(expected),
    counted: totalOf(counted),
    overShort: overShort.total,
  }));
  return <DataTable caption={`Drivers, in ${unitWords(unit)}`} columns={sumColumns('Driver', unit)} rows={rows} />;
}
