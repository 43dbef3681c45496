import { COUNT_CAUTIONS, cautionsOf } from '../../findings/index.js';
import { describeSettlement } from '../../report/index.js';
import { isChanged, outcomeWords } from '../../report/text/closing-text.js';
import type { Visit } from '../../settlement/index.js';
import {
  byteLength,
  Cautions,
  Findings,
  Page,
  type PageFile,
  Parts,
  pageOut,
  renderPage,
  renderPart,
  type SafeNames,
  type Site,
  TableRow,
} from '../frame/index.js';
import { AfterClosing } from './after-closing.js';
import { BookSums, ClosedBefore, hasBookSums } from './book-sums.js';
import { DriverSheet, OneVisitFindings, SheetFacts } from './driver-sheet.js';
import { type DriverSheetGiven, divideByDriver } from './driver-sheets.js';
import { ALL_LINES, expectedColumns } from './expected-table.js';
import { outlineSettlement, type SettlementLine, type SheetRound } from './settlement-line.js';
import { DriversTable, TotalsTable } from './totals-table.js';
import { visitColumns } from './visits-table.js';

/** A settlement's pages, and what other pages say of it. */
export interface SettlementPages {
  readonly line: SettlementLine;
  readonly files: readonly PageFile[];
}

/** Bytes of visits on one sheet, and of sheets on one page; what is left is for the frame and the sums. */
const SHEET_BYTES = 200_000;
const PAGE_BYTES = 320_000;

/**
 * The printable sheets of a settlement, one a driver, each beginning on a new page of paper. Together they are one file,
 * or several where they are too much for one.
 *
 * @param names - gives out the files' names
 */
export function makeSettlementPages(round: SheetRound, names: SafeNames, site: Site): SettlementPages {
  const { settlement, inBook } = round;
  const { route, currency } = settlement;
  const name = names.fresh(`${route ?? 'no route'} ${currency ?? ''}`);
  const sizes = new Map(settlement.visits.map((visit) => [visit, measureVisit(visit, site)]));
  const sheets = divideByDriver(settlement, (visit) => sizes.get(visit)!, SHEET_BYTES);
  const sizeOf = ({ visits }: DriverSheetGiven): number =>
    visits.reduce((sum, visit) => sum + sizes.get(visit)!, SHEET_OVERHEAD);
  const pages = pageOut(sheets, sizeOf, { bytes: PAGE_BYTES });
  const hrefs = pages.map((_, place) => `${name}${place === 0 ? '' : `.${place + 1}`}.html`);
  const title = `Settlement: ${describeSettlement(settlement)}`;
  const files = pages.map((own, place) => {
    const page = (
      <Page
        title={pages.length === 1 ? title : `${title}, part ${place + 1} of ${pages.length}`}
        site={site}
        here={hrefs[place]!}
      >
        {place === 0 ? <Outcome round={round} site={site} /> : null}
        {own.map((sheet, number) => (
          <DriverSheet key={number} round={round} sheet={sheet} site={site} place={number + 1} />
        ))}
        {place === pages.length - 1 && inBook !== null ? <AfterClosing inBook={inBook} unit={settlement} /> : null}
        <Parts of={title} hrefs={hrefs} here={place} />
      </Page>
    );
    return { name: hrefs[place]!, text: renderPage(page) };
  });
  return { line: outlineSettlement(round, hrefs[0]!), files };
}

/** Facts, sums, cautions and signatures of a sheet, generously. */
const SHEET_OVERHEAD = 12_000;

/** How many bytes a visit takes, wherever it stands on its sheet. */
function measureVisit(visit: Visit, site: Site): number {
  const parts = (
    <>
      <TableRow columns={visitColumns(site)} row={visit} place={0} />
      <TableRow columns={expectedColumns(ALL_LINES)} row={visit} place={0} />
      <OneVisitFindings visit={visit} />
    </>
  );
  return byteLength(renderPart(parts));
}

/** How the round came out; of several drivers a sheet of its own, with the sums of all. */
function Outcome({ round, site }: { readonly round: SheetRound; readonly site: Site }) {
  const { settlement, inBook } = round;
  const { totals, drivers, findings } = settlement;
  const found =
    findings.length === 0 ? null : (
      <>
        <h2>About the round</h2>
        <Findings findings={findings} />
      </>
    );
  const before = inBook === null ? null : <ClosedBefore inBook={inBook} unit={settlement} />;
  const all = inBook?.drivers ?? [];
  if (drivers.length < 2 && all.length < 2) {
    return (
      <>
        <Headline round={round} />
        {before}
        {found}
      </>
    );
  }
  return (
    <section class="sheet" aria-label="All drivers">
      <Headline round={round} />
      {before}
      <SheetFacts round={round} site={site} />
      <DriversTable drivers={drivers} unit={settlement} />
      <TotalsTable totals={totals} unit={settlement} name="all drivers" />
      {inBook !== null && hasBookSums(inBook) ? <BookSums inBook={inBook} unit={settlement} drivers={all} /> : null}
      {found}
      <Cautions cautions={cautionsOf([{ cautions: COUNT_CAUTIONS }, ...findings])} id="cautions-0" />
    </section>
  );
}

function Headline({ round: { settlement, inBook } }: { readonly round: SheetRound }) {
  const { overShort, settledVisits } = settlement.totals;
  const words = outcomeWords(settlement.totals, settlement);
  const outcome =
    settledVisits > 0 && overShort.total !== 0 && overShort.total !== null ? <strong>{words}</strong> : words;
  return (
    <p>
      {inBook !== null && isChanged(inBook) ? 'As it stands: ' : ''}
      {outcome}.
    </p>
  );
}
