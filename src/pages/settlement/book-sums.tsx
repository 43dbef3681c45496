import type { BookDriverJson, BookFactsJson } from '../../report/shapes/closing.js';
import { isChanged, nameDriver, outcomeWords, roundWords } from '../../report/text/closing-text.js';
import { type MoneyUnit, unitWords } from '../../report/text/words.js';
import { DataTable, LONGEST_SENTENCE, Money, Shown, type TableColumn } from '../frame/index.js';

/** What the book says of a round, and in what money. */
export interface BookSumsProps {
  readonly inBook: BookFactsJson;
  readonly unit: MoneyUnit;
}

/** Whether over/short of a round is not all in the sums of the round itself. */
export function hasBookSums(inBook: BookFactsJson): boolean {
  return isChanged(inBook) || inBook.drivers.some(({ carried }) => carried.length > 0);
}

/** How a round was closed and adjusted, where it does not stand so any more; and why it was closed, or cannot be. */
export function ClosedBefore({ inBook, unit }: BookSumsProps) {
  const { asClosed, closing, adjustments, pendingAdjustment, inTheWay } = inBook;
  return (
    <>
      {closing === null || closing.reason === null ? null : (
        <p>
          Closed though something was in the way: <Shown text={closing.reason} max={LONGEST_SENTENCE} />
        </p>
      )}
      {asClosed === null || !isChanged(inBook) ? null : (
        <p>
          As closed: {outcomeWords(asClosed, unit)}.
          {adjustments.map(({ entry, overShort }) => (
            <>
              {' '}
              Adjusted by <Money amount={overShort} unit={unit} signed /> (entry {entry}).
            </>
          ))}
          {pendingAdjustment === null ? null : (
            <>
              {' '}
              Not recorded yet: <Money amount={pendingAdjustment.overShort} unit={unit} signed />.
            </>
          )}
        </p>
      )}
      {inTheWay.length === 0 ? null : (
        <p>
          It cannot be closed: <Shown text={inTheWay.join(' ')} max={LONGEST_SENTENCE} />
        </p>
      )}
    </>
  );
}

/** Over/short by driver: as it stands, as it was closed, and with what is carried. */
export function BookSums({ inBook, unit, drivers }: BookSumsProps & { readonly drivers: readonly BookDriverJson[] }) {
  const carried = drivers.flatMap((each) => each.carried.map((part) => ({ ...part, driver: each.driver })));
  const verb = inBook.closing === null ? 'would be carried in by a closing now' : 'carried in';
  return (
    <>
      <DataTable
        caption={`Over (+) or short (−) with what is carried, in ${unitWords(unit)}`}
        columns={sumColumns(unit)}
        rows={drivers}
      />
      {carried.length === 0 ? null : (
        <ul>
          {carried.map((part, place) => (
            <li key={place}>
              <Shown text={nameDriver(part.driver)} />: <Money amount={part.overShort} unit={unit} signed /> of{' '}
              <Shown text={roundWords(part)} /> (entry {part.entry}) {verb}.
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

function sumColumns(unit: MoneyUnit): readonly TableColumn<BookDriverJson>[] {
  const amount = (of: (driver: BookDriverJson) => number | null) => (driver: BookDriverJson) => (
    <Money amount={of(driver)} unit={unit} signed />
  );
  return [
    { head: 'Driver', cell: ({ driver }) => <Shown text={nameDriver(driver)} /> },
    { head: 'As it stands', isNumber: true, cell: amount(({ asItStands }) => asItStands.overShort.total) },
    { head: 'As closed', isNumber: true, cell: amount(({ asClosed }) => asClosed?.overShort.total ?? null) },
    { head: 'Carried in', isNumber: true, cell: amount(carriedIn) },
    { head: 'Carried on', isNumber: true, cell: amount(carriedOn) },
    { head: 'To answer for', isNumber: true, cell: amount(({ overShortWithCarried }) => overShortWithCarried) },
  ];
}

/** What a driver takes over with a round. */
export function carriedIn({ carried }: BookDriverJson): number {
  return carried.reduce((sum, { overShort }) => sum + overShort, 0);
}

/** What a later round has taken over of a driver's part. */
export function carriedOn(driver: BookDriverJson): number {
  return (driver.asItStands.overShort.total ?? 0) + carriedIn(driver) - driver.overShortWithCarried;
}
