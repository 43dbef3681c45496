import type { ComponentChildren } from 'preact';
import type { AdjustmentJson, BookFactsJson, ChangeJson } from '../../report/shapes/closing.js';
import { becauseWords, FIELD_WORDS, instantWords, partWords, valueWords } from '../../report/text/closing-text.js';
import { type MoneyUnit, plural } from '../../report/text/words.js';
import { Absent, DataTable, LONGEST_SENTENCE, Money, Shown, type TableColumn } from '../frame/index.js';

/** What is shown of a round besides its closing. */
export interface AfterClosingProps {
  readonly inBook: BookFactsJson;
  readonly unit: MoneyUnit;
}

/** Changes of one adjustment that are shown; the book has them all. */
const MOST_CHANGES = 100;

/** What came after the closing: adjustments, and changes that are not recorded yet; nothing where there are none. */
export function AfterClosing({ inBook: { adjustments, pending, pendingAdjustment }, unit }: AfterClosingProps) {
  if (adjustments.length === 0 && pendingAdjustment === null) return null;
  return (
    <section class="sheet" aria-labelledby="after-closing">
      <h2 id="after-closing">After the closing</h2>
      {adjustments.map((adjustment) => (
        <Changes key={adjustment.entry} title={`Adjusted by entry ${adjustment.entry}`} given={adjustment} unit={unit}>
          Recorded <time dateTime={adjustment.at}>{instantWords(adjustment.at)}</time>
          {adjustment.by === null ? null : (
            <>
              {' '}
              by <Shown text={adjustment.by} />
            </>
          )}
          .
        </Changes>
      ))}
      {pendingAdjustment === null ? null : (
        <Changes
          title="Changed since, not recorded yet"
          given={{
            ...pendingAdjustment,
            changes: pending,
            byDriver: pendingAdjustment.byDriver.map((part) => ({ ...part, carriedTo: null })),
          }}
          unit={unit}
        >
          Closing the day again records it as an adjustment.
        </Changes>
      )}
    </section>
  );
}

interface ChangesProps {
  readonly title: string;
  readonly given: Pick<AdjustmentJson, 'changes' | 'because' | 'overShort' | 'byDriver'>;
  readonly unit: MoneyUnit;
  readonly children: ComponentChildren;
}

function Changes({ title, given: { changes, because, overShort, byDriver }, unit, children }: ChangesProps) {
  const rest = changes.length - MOST_CHANGES;
  return (
    <>
      <h3>{title}</h3>
      <p>{children}</p>
      <p>
        Over/short changed by <Money amount={overShort} unit={unit} signed withCurrency />, because of{' '}
        <Shown text={becauseWords(because)} max={LONGEST_SENTENCE} />.
      </p>
      <ul>
        {byDriver.slice(0, MOST_CHANGES).map((part, place) => (
          <li key={place}>
            <Shown text={partWords(part, unit)} max={LONGEST_SENTENCE} />
          </li>
        ))}
      </ul>
      <DataTable
        caption={`${title}: what changed`}
        columns={changeColumns(unit)}
        rows={changes.slice(0, MOST_CHANGES)}
      />
      {rest > 0 ? <p>And {plural(rest, 'change')} more: see the entry.</p> : null}
    </>
  );
}

function changeColumns(unit: MoneyUnit): readonly TableColumn<ChangeJson>[] {
  return [
    { head: 'Machine', cell: ({ machine }) => (machine === null ? 'the round' : <Shown text={machine} />) },
    { head: 'Bag', cell: (change) => <BagOf change={change} /> },
    { head: 'What', cell: ({ field }) => FIELD_WORDS[field] },
    { head: 'From', isNumber: true, cell: (change) => <Value change={change} value={change.from} unit={unit} /> },
    { head: 'To', isNumber: true, cell: (change) => <Value change={change} value={change.to} unit={unit} /> },
  ];
}

function BagOf({ change: { machine, bag } }: { readonly change: ChangeJson }) {
  if (machine === null) return 'all';
  return bag === null ? <Absent words="not named" /> : <Shown text={bag} />;
}

interface ValueProps {
  readonly change: ChangeJson;
  readonly value: ChangeJson['from'];
  readonly unit: MoneyUnit;
}

function Value({ change, value, unit }: ValueProps) {
  return value === null ? <Absent words="not known" /> : <Shown text={valueWords(change, value, unit)} />;
}
