import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../../src/findings/index.js';
import { makeSite, outlineSettlement, renderPart } from '../../../src/pages/index.js';
import { AfterClosing } from '../../../src/pages/settlement/after-closing.js';
import { BookSums, carriedIn, carriedOn, hasBookSums } from '../../../src/pages/settlement/book-sums.js';
import { ClosingFacts } from '../../../src/pages/settlement/closing-facts.js';
import { OneVisitFindings } from '../../../src/pages/settlement/driver-sheet.js';
import { ExpectedTable } from '../../../src/pages/settlement/expected-table.js';
import { Signatures } from '../../../src/pages/settlement/signatures.js';
import { TotalsTable, totalOf } from '../../../src/pages/settlement/totals-table.js';
import { VisitsTable } from '../../../src/pages/settlement/visits-table.js';
import { nameDriver } from '../../../src/report/text/closing-text.js';
import { demoInputs } from '../../day/demo-day.js';
import { closedRound } from '../support/closed-round.js';
import { textOf } from '../support/look-at-page.js';

const [demo] = demoInputs('2026-11-23').settlements.settlements;
const visit = demo!.visits.find(({ machine }) => machine === 'V101')!;
const site = makeSite({ day: '2026-11-23' });

describe('parts of a sheet', () => {
  it('sum what is known, and nothing else', () => {
    expect(totalOf({ coins: 1, bills: 2 })).toBe(3);
    expect(totalOf({ coins: 1, bills: null })).toBeNull();
    const html = renderPart(<TotalsTable totals={demo!.totals} unit={demo!} name={nameDriver(null)} />);
    expect(textOf(html)).toContain('Sums over 6 settled visits: no driver named, in EUR');
  });

  it('link to no machine that has no page', () => {
    expect(renderPart(<VisitsTable visits={[visit]} site={site} />)).not.toContain('href');
    expect(renderPart(<ExpectedTable visits={[visit]} />)).not.toContain('href');
  });

  it('leave notes to the screen', () => {
    const noted = { ...visit, findings: [makeFinding('duplicate-read', 'A copy.')] };
    expect(renderPart(<OneVisitFindings visit={noted} />)).toMatch(/^<div class="screen-only">/);
    const doubtful = { ...visit, bag: null, capture: null, findings: [makeFinding('short', 'Less.')] };
    expect(textOf(renderPart(<OneVisitFindings visit={doubtful} />))).toBe('V101 ?doubt Less. short');
  });

  it('leave the line open where no driver is named', () => {
    expect(textOf(renderPart(<Signatures driver={null} />))).toMatch(/^Driver: signature, date/);
  });

  it('say how it was closed', () => {
    const inBook = closedRound({ by: 'Kim' });
    const html = renderPart(<ClosingFacts inBook={inBook} book={null} />);
    expect(textOf(html)).toBe('Closing =Closed, entry 39 2026-11-24 09:00 UTC, by Kim Book none');
    const line = outlineSettlement({ settlement: demo!, inBook }, 'a.html');
    expect(line).toMatchObject({ page: 'a.html', overShort: -500, closedBy: 39, isChangedSince: false });
    expect(renderPart(<AfterClosing inBook={inBook} unit={demo!} />)).toBe('');
    expect(hasBookSums(inBook)).toBe(false);
  });

  it('say what a driver answers for with what is carried, so that nothing is in two rounds', () => {
    const inBook = closedRound({ machine: 'V101' });
    expect(hasBookSums(inBook)).toBe(true);
    const [own] = inBook.drivers;
    expect([carriedIn(own!), carriedOn(own!)]).toEqual([-100, 0]);
    // What a later round took over is in that one.
    expect(carriedOn({ ...own!, overShortWithCarried: -800 })).toBe(200);
    const text = textOf(renderPart(<BookSums inBook={inBook} unit={demo!} drivers={inBook.drivers} />));
    expect(text).toContain('Robin Sample −5.00 −9.00 −1.00 0.00 −6.00');
    expect(text).toContain('Robin Sample: −1.00 of route R7, 2026-11-22 (entry 30) carried in.');
  });
});
