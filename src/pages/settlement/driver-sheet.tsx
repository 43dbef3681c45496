import { COUNT_CAUTIONS, cautionsOf } from '../../findings/index.js';
import { nameDriver } from '../../report/text/closing-text.js';
import { unitWords } from '../../report/text/words.js';
import type { Visit } from '../../settlement/index.js';
import { Cautions, Findings, Shown, type Site, When } from '../frame/index.js';
import { BookSums, hasBookSums } from './book-sums.js';
import { ClosingFacts } from './closing-facts.js';
import type { DriverSheetGiven } from './driver-sheets.js';
import { ExpectedTable } from './expected-table.js';
import type { SheetRound } from './settlement-line.js';
import { Signatures } from './signatures.js';
import { TotalsTable } from './totals-table.js';
import { VisitsTable } from './visits-table.js';

/** What a driver's sheet is made from. */
export interface DriverSheetProps {
  readonly round: SheetRound;
  readonly sheet: DriverSheetGiven;
  readonly site: Site;
  /** Its number on the page, which makes its ids its own. */
  readonly place: number;
}

/** One printable sheet: what a driver answers for, what was found, and lines to sign on. */
export function DriverSheet({ round, sheet, site, place }: DriverSheetProps) {
  const { driver, visits, totals, part, parts } = sheet;
  const isLast = part === parts;
  const id = `driver-${place}`;
  return (
    <section class="sheet" aria-labelledby={id}>
      <h2 id={id}>
        Driver: <Shown text={nameDriver(driver)} />
        {parts === 1 ? '' : `, part ${part} of ${parts}`}
      </h2>
      <SheetFacts round={round} site={site} />
      <VisitsTable visits={visits} site={site} />
      {isLast ? <TotalsTable totals={totals} unit={round.settlement} name={nameDriver(driver)} /> : <p>Continued.</p>}
      {isLast ? <OwnSums round={round} driver={driver} /> : null}
      <Cautions cautions={COUNT_CAUTIONS} id={`cautions-${place}`} level={3} />
      {isLast ? <Signatures driver={driver} /> : null}
      <Annex visits={visits} place={place} />
    </section>
  );
}

/** What the driver signs for, where that is not all in the sums of this round. */
function OwnSums({
  round: { settlement, inBook },
  driver,
}: Pick<DriverSheetProps, 'round'> & { driver: string | null }) {
  const own = inBook?.drivers.filter((each) => each.driver === driver) ?? [];
  if (inBook === null || own.length === 0 || !hasBookSums(inBook)) return null;
  return <BookSums inBook={inBook} unit={settlement} drivers={own} />;
}

/** Which round a sheet is of, in what money, and whether it is closed. */
export function SheetFacts({ round: { settlement, inBook }, site }: Pick<DriverSheetProps, 'round' | 'site'>) {
  const { route, day, from, to } = settlement;
  return (
    <dl class="facts">
      <dt>Route and day</dt>
      <dd>
        {route === null ? 'no route' : <Shown text={route} />}, <When at={day} />
      </dd>
      <dt>Collections</dt>
      <dd>
        from <When at={from} /> to <When at={to} />
      </dd>
      <dt>Amounts</dt>
      <dd>{unitWords(settlement)}</dd>
      <ClosingFacts inBook={inBook} book={site.book} />
    </dl>
  );
}

/** What the sheet rests on: how what is expected is made up, and what was found. It begins on a new page of paper. */
function Annex({ visits, place }: Pick<DriverSheetProps, 'place'> & { readonly visits: readonly Visit[] }) {
  const findings = visits.flatMap((visit) => visit.findings);
  return (
    <div class="annex">
      <ExpectedTable visits={visits} />
      <VisitFindings visits={visits} />
      <Cautions cautions={cautionsOf(findings)} id={`cautions-of-findings-${place}`} level={3} />
    </div>
  );
}

/** Findings of one visit that are shown; the machine's page has them all. */
const MOST_WEIGHTY = 8;
const MOST_NOTES = 4;

function VisitFindings({ visits }: { readonly visits: readonly Visit[] }) {
  const noted = visits.filter(({ findings }) => findings.length > 0);
  if (noted.length === 0) return null;
  return (
    <>
      <h3>What was found</h3>
      {noted.map((visit, place) => (
        <OneVisitFindings key={place} visit={visit} />
      ))}
    </>
  );
}

/** What was found on one visit; notes, which ask for nothing, are not printed. */
export function OneVisitFindings({ visit: { machine, bag, capture, findings } }: { readonly visit: Visit }) {
  const weighty = findings.filter(({ severity }) => severity !== 'note');
  const notes = findings.filter(({ severity }) => severity === 'note');
  const context = { machine, file: capture ?? undefined };
  return (
    <div class={weighty.length === 0 ? 'screen-only' : undefined}>
      <h4>
        <Shown text={machine} />
        {bag === null ? '' : ', bag '}
        {bag === null ? null : <Shown text={bag} />}
      </h4>
      <Findings findings={weighty} most={MOST_WEIGHTY} {...context} />
      {notes.length === 0 ? null : (
        <details class="screen-only">
          <summary>Good to know ({notes.length})</summary>
          <Findings findings={notes} most={MOST_NOTES} {...context} />
        </details>
      )}
    </div>
  );
}
