import type { ComponentChildren } from 'preact';
import type { ChangesJson, ClosingJson, VisitChangeJson } from '../../report/shapes/closing.js';
import { instantWords } from '../../report/text/closing-text.js';
import { type MoneyUnit, plural } from '../../report/text/words.js';
import { Absent, DataTable, LONGEST_SENTENCE, Money, Shown, type TableColumn } from '../frame/index.js';

/** What is shown of a closing besides its entry. */
export interface AfterClosingProps {
  readonly closing: ClosingJson;
  readonly unit: MoneyUnit;
}

/** Changes of one adjustment that are shown; the book has them all. */
const MOST_CHANGES = 100;

/** What a settlement took over of earlier ones, and its over/short with that. */
export function Carried({ closing: { carried, closed, withCarried }, unit }: AfterClosingProps) {
  if (carried.length === 0) return null;
  const verb = closed === null ? 'that closing would carry over' : 'carried over';
  return (
    <DataTable
      caption={`Adjustments of earlier rounds ${verb}`}
      columns={carriedColumns(unit)}
      rows={carried.slice(0, MOST_CHANGES)}
      footer={[
        'over/short with this round',
        '',
        ...([withCarried.coins, withCarried.bills, withCarried.total] as const).map((amount) => (
          <Money amount={amount} unit={unit} signed />
        )),
      ]}
    />
  );
}

function carriedColumns(unit: MoneyUnit): readonly TableColumn<ClosingJson['carried'][number]>[] {
  return [
    { head: 'Round of', cell: ({ day }) => day },
    { head: 'By entry', isNumber: true, cell: ({ entry }) => entry },
    {
      head: 'Coins over or short',
      isNumber: true,
      cell: ({ overShort }) => <Money amount={overShort.coins} unit={unit} signed />,
    },
    {
      head: 'Bills over or short',
      isNumber: true,
      cell: ({ overShort }) => <Money amount={overShort.bills} unit={unit} signed />,
    },
    {
      head: 'Total over or short',
      isNumber: true,
      cell: ({ overShort }) => <Money amount={overShort.total} unit={unit} signed />,
    },
  ];
}

/** What came after the closing: adjustments, and changes that are not recorded yet; nothing where there are none. */
export function AfterClosing({ closing: { adjustments, changes }, unit }: AfterClosingProps) {
  if (adjustments.length === 0 && changes === null) return null;
  return (
    <section class="sheet" aria-labelledby="after-closing">
      <h2 id="after-closing">After the closing</h2>
      {adjustments.map((adjustment) => {
        const { entry, recordedAt, by, carriedBy } = adjustment;
        const carried = carriedBy === null ? 'not carried over yet' : `carried over by entry ${carriedBy}`;
        return (
          <Changes key={entry} title={`Adjusted by entry ${entry}`} changes={adjustment} unit={unit}>
            Recorded <time dateTime={recordedAt}>{instantWords(recordedAt)}</time>
            {by === null ? null : (
              <>
                {' '}
                by <Shown text={by} />
              </>
            )}
            , {carried}.
          </Changes>
        );
      })}
      {changes === null ? null : (
        <Changes title="Changed since, not recorded yet" changes={changes} unit={unit}>
          Closing the day again records it as an adjustment.
        </Changes>
      )}
    </section>
  );
}

interface ChangesProps {
  readonly title: string;
  readonly changes: ChangesJson;
  readonly unit: MoneyUnit;
  readonly children: ComponentChildren;
}

function Changes({ title, changes: { visits, because, overShort }, unit, children }: ChangesProps) {
  const why = because.map(({ entry, what }) => (entry === null ? what : `${what} (entry ${entry})`));
  const rest = visits.length - MOST_CHANGES;
  return (
    <>
      <h3>{title}</h3>
      <p>{children}</p>
      <p>
        Over/short changed by <Money amount={overShort.total} unit={unit} signed withCurrency />, because of{' '}
        {why.length === 0 ? (
          'what is known of captures, with no entry since'
        ) : (
          <Shown text={why.join(', ')} max={LONGEST_SENTENCE} />
        )}
        .
      </p>
      <DataTable
        caption={`${title}: what changed`}
        columns={changeColumns(unit)}
        rows={visits.slice(0, MOST_CHANGES)}
      />
      {rest > 0 ? <p>And {plural(rest, 'change')} more: see the entry.</p> : null}
    </>
  );
}

const FIELD_WORDS: Readonly<Record<VisitChangeJson['field'], string>> = {
  state: 'state',
  'expected.coins': 'expected coins',
  'expected.bills': 'expected bills',
  'counted.coins': 'counted coins',
  'counted.bills': 'counted bills',
  'overShort.coins': 'coins over/short',
  'overShort.bills': 'bills over/short',
  'overShort.total': 'over/short',
};

function changeColumns(unit: MoneyUnit): readonly TableColumn<VisitChangeJson>[] {
  return [
    { head: 'Machine', cell: ({ machine }) => <Shown text={machine} /> },
    { head: 'Bag', cell: ({ bag }) => (bag === null ? <Absent words="not named" /> : <Shown text={bag} />) },
    { head: 'What', cell: ({ field }) => FIELD_WORDS[field] },
    { head: 'From', isNumber: true, cell: ({ from }) => <Value value={from} unit={unit} /> },
    { head: 'To', isNumber: true, cell: ({ to }) => <Value value={to} unit={unit} /> },
    {
      head: 'By',
      isNumber: true,
      cell: ({ field, by }) => (field === 'state' ? '' : <Money amount={by} unit={unit} signed />),
    },
  ];
}

function Value({ value, unit }: { readonly value: VisitChangeJson['from']; readonly unit: MoneyUnit }) {
  return typeof value === 'string' ? value : <Money amount={value} unit={unit} />;
}
