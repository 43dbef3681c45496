import { describe, expect, it } from 'vitest';
import { adviseAtCabinet, CAUTIONS, makeFinding } from '../../../src/findings/index.js';
import {
  byteLength,
  LARGEST_PAGE,
  makeSettlementPages,
  makeSite,
  SafeNames,
  type SettlementPages,
} from '../../../src/pages/index.js';
import type { BookFactsJson } from '../../../src/report/shapes/closing.js';
import type { Settlement, Visit } from '../../../src/settlement/index.js';
import { demoInputs } from '../../day/demo-day.js';
import { closedRound } from '../support/closed-round.js';
import { HOSTILE_TEXTS, HUGE_TEXT } from '../support/hostile.js';
import { expectSoundPage, linksOf, tagsOf, textOf } from '../support/look-at-page.js';

const root = '6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d';
const closing = closedRound();
const [demo] = demoInputs('2026-11-23').settlements.settlements;
const ordinary = demo!.visits.find(({ machine }) => machine === 'V101')!;

function pagesOf(
  settlement: Settlement,
  inBook: BookFactsJson | null = null,
  machines: readonly string[] = ['V101', 'V103'],
): SettlementPages {
  const site = makeSite({ day: settlement.day, book: { size: 40, root } });
  for (const machine of machines) site.machinePages.of(machine);
  const pages = makeSettlementPages({ settlement, inBook }, new SafeNames('settlement-'), site);
  for (const { text } of pages.files) expectSoundPage(text);
  return pages;
}

const textsOf = (pages: SettlementPages): string[] => pages.files.map(({ text }) => textOf(text));

/** The demo's round with these visits, all of one driver unless they say otherwise. */
function roundOf(visits: readonly Visit[], given: Partial<Settlement> = {}): Settlement {
  const drivers = [...new Set(visits.map(({ driver }) => driver))];
  return { ...demo!, visits, drivers: drivers.map((driver) => ({ driver, totals: demo!.totals })), ...given };
}

describe('the sheet of the demo round', () => {
  const pages = pagesOf(demo!, closing);
  const [text] = textsOf(pages);

  it('is one file, told of in a line', () => {
    expect(pages.files.map(({ name }) => name)).toEqual(['settlement-r7-eur.html']);
    expect(pages.line).toEqual({
      page: 'settlement-r7-eur.html',
      route: 'R7',
      overShort: -500,
      settledVisits: 6,
      openVisits: 2,
      currency: 'EUR',
      decimals: 2,
      closedBy: 39,
      isChangedSince: false,
    });
  });

  it('says how the round came out, visit by visit and in sum, as the settlement has it', () => {
    expect(text).toContain('5.00 EUR short on 6 settled visits; 2 visits still open.');
    expect(text).toContain(
      'V106 College block B B4406 2026-11-23 10:20 −short 126.10 115.00 121.10 115.00 −5.00 0.00 −5.00',
    );
    expect(text).toContain('×unsettled at least 82.80 at least 55.00 104.80 85.00 –not known –not known –not known');
    expect(text).toContain('coins 519.60 514.60 −5.00 bills 455.00 455.00 0.00 total 974.60 969.60 −5.00');
    expect(text).toContain('Sold 677 for 940.10, of that by card 98.80. Lost by prices off plan: 0.60.');
    expect(text).toContain('2 visits still open; counted on them, and in no sum above: coins 196.00, bills 85.00.');
  });

  it('says what is expected part by part, and from which captures', () => {
    expect(text).toContain('V103 +87.60 +6.00 0.00 +40.00 2026-11-23-0859-v103.dex date 2026-11-20-0859-v103.dex');
    expect(text).toContain('V108 +89.20 0.00 0.00 0.00 none nothing 2026-11-20-1114-v108.dex');
  });

  it('leads to the pages of machines that have one, and not from a collection to the figures of another time', () => {
    const links = linksOf(pages.files[0]!.text).filter((link) => link.startsWith('machine-'));
    expect(new Set(links)).toEqual(new Set(['machine-v101.html', 'machine-v103.html']));
  });

  it('bears what was found, the cautions, the closing entry with the root, and three lines to sign', () => {
    expect(text).toContain('V108, bag B4408 ?doubt There is no capture for this bag.');
    for (const caution of Object.values(CAUTIONS).filter((one) => one !== CAUTIONS.food))
      expect(text).toContain(caution);
    expect(text).toContain('Closing =Closed, entry 39 2026-11-24 09:00 UTC, by Kim Office');
    expect(text).toContain(`Book 40 entries, root ${root} Visits`);
    expect(text).toContain('Driver Robin Sample: signature, date Counted by: name, signature, date Office: name');
    expect(tagsOf(pages.files[0]!.text).filter(({ attributes }) => attributes.get('class') === 'sheet')).toHaveLength(
      1,
    );
  });

  it('says that it is not closed', () => {
    expect(textsOf(pagesOf(demo!))[0]).toContain('Closing ·Not closed Book');
    expect(textsOf(pagesOf(demo!, { ...closing, closing: null }))[0]).toContain('Closing ·Not closed Book');
  });
});

describe('a settlement', () => {
  const totals = (total: number | null, settledVisits = 1, openVisits = 0) => ({
    ...demo!.totals,
    overShort: { coins: total, bills: 0, total },
    settledVisits,
    openVisits,
    loss: null,
  });

  it.each([
    [totals(0), 'no difference on 1 settled visit.'],
    [totals(250), '2.50 EUR over on 1 settled visit.'],
    [totals(null), 'difference not known on 1 settled visit.'],
    [totals(null, 0, 1), 'nothing could be settled; 1 visit still open.'],
  ])('begins with how it came out', (sums, words) => {
    const [text] = textsOf(pagesOf(roundOf([ordinary], { totals: sums, drivers: [{ driver: 'A', totals: sums }] })));
    expect(text).toContain(words);
    expect(text).not.toContain('Lost by prices');
  });

  it('of several drivers has a sheet for each, and one before them with the sums of all', () => {
    const visits = [
      { ...ordinary, driver: 'Kim', drivers: ['Kim'] },
      { ...ordinary, driver: 'Robin', drivers: ['Robin'] },
      { ...ordinary, driver: 'Robin', drivers: ['Kim', 'Robin'], jointBags: ['B1', 'B2'], bag: null, location: null },
    ];
    const finding = makeFinding('clock-wrong', 'About the round itself.', adviseAtCabinet('Set it.'));
    const pages = pagesOf(roundOf(visits, { findings: [finding] }));
    const html = pages.files[0]!.text;
    expect(tagsOf(html).filter(({ attributes }) => attributes.get('class') === 'sheet')).toHaveLength(3);
    const text = textOf(html);
    expect(text).toMatch(
      /Drivers, in EUR .* Kim .* Robin .* About the round itself\. Do: Set it\. .*Never rock or tilt .*Driver: Kim /,
    );
    expect(text).toMatch(
      /Driver: Robin .* no bag named 2026-11-23 08:05 together: B1, B2 .* Driver Robin: signature, date/,
    );
  });

  it('of one driver says what was found about the round on his sheet', () => {
    const finding = makeFinding('no-capture', 'About the round itself.');
    expect(textsOf(pagesOf(roundOf([ordinary], { findings: [finding] })))[0]).toContain('About the round ?doubt');
  });

  it('of no route and no currency says so, and is closed all the same', () => {
    const visit = { ...ordinary, currency: null, decimals: null, findings: [], expectedLines: [], capture: null };
    const bare = { route: null, currency: null, decimals: null, from: null, to: null };
    const pages = pagesOf(roundOf([visit], bare), closing);
    expect(pages.files[0]!.name).toBe('settlement-no-route.html');
    expect(textsOf(pages)[0]).toContain('no route, 2026-11-23 Collections from –time not known to –time not known');
    expect(textsOf(pages)[0]).toContain('decimals not known: digits as the machine gives them');
    expect(textsOf(pages)[0]).not.toContain('How what is expected is made up');
  });

  it('tells amounts of the sheet, and parts that were left out, from those of the counters', () => {
    const lines = ordinary.expectedLines
      .filter(({ what }) => what !== 'paid-out')
      .map((line) => ({ ...line, source: 'sheet' as const }));
    const issued = { what: 'float-issued', kind: 'coins', amount: 700, source: 'counters' } as const;
    const visits = [
      { ...ordinary, expectedLines: lines, capture: null, since: null, matchedBy: null },
      { ...ordinary, expectedLines: [...ordinary.expectedLines, issued] },
    ];
    const [text] = textsOf(pagesOf(roundOf(visits)));
    expect(text).toContain(
      'V101 +83.20 from the sheet none −4.00 from the sheet none +105.00 from the sheet none nothing none',
    );
    expect(text).toContain('V101 +83.20 0.00 −4.00 +7.00 +105.00');
  });

  it('without visits is an empty sheet', () => {
    const pages = pagesOf(roundOf([], { drivers: [{ driver: null, totals: totals(null, 0) }] }));
    expect(textsOf(pages)[0]).toContain('Visits: expected, counted, over (+) or short (−) Machine');
  });
});

describe('a settlement to which something came after its closing', () => {
  const closed = closedRound({ by: 'Kim', machine: 'V101' });

  it('shows it as it stands first, then as it was closed, what was adjusted, what is not recorded yet, and why', () => {
    const pages = pagesOf(roundOf([ordinary]), closed);
    const [text] = textsOf(pages);
    expect(pages.line.isChangedSince).toBe(true);
    expect(text).toMatch(
      /As it stands: 5\.00 EUR short on 6 settled visits; .* As closed: 9\.00 EUR short on 1 settled visit\. Adjusted by \+2\.00 \(entry 41\)\. Not recorded yet: \+2\.00\./,
    );
    expect(text).toMatch(/After the closing Adjusted by entry 41 Recorded 2026-11-25 06:00 UTC by Kim\./);
    expect(text).toContain('Over/short changed by +2.00 EUR, because of late.dex (entry 40), counts.csv row 3.');
    expect(text).toContain('Robin Sample: +2.00, not carried yet.');
    expect(text).toContain('V101 –not named state unread agreed V101 B1 counted coins 79.20 81.20');
    expect(text).toContain('the round all settled visits 1 2');
    expect(text).toContain('Changed since, not recorded yet Closing the day again records it as an adjustment.');
    expect(text).toContain('because of no entry since: what is known of captures changed.');
  });

  it('says on the sheet to be signed what was taken over of earlier rounds, and over/short with that', () => {
    const [text] = textsOf(pagesOf(roundOf([ordinary]), closed));
    expect(text).toContain('Robin Sample −5.00 −9.00 −1.00 0.00 −6.00');
    expect(text).toContain('Robin Sample: −1.00 of route R7, 2026-11-22 (entry 30) carried in.');
    const open = { ...closed, closing: null, asClosed: null, adjustments: [], pending: [], pendingAdjustment: null };
    expect(textsOf(pagesOf(demo!, open))[0]).toContain('(entry 30) would be carried in by a closing now.');
  });

  it('says why it was closed though something was in the way, or what is', () => {
    const anyway = { ...closing, closing: { ...closing.closing!, reason: 'the row is lost' } };
    expect(textsOf(pagesOf(demo!, anyway))[0]).toContain('Closed though something was in the way: the row is lost');
    const open = { ...closing, closing: null, inTheWay: ['Row 5 of counts.csv could not be used.'] };
    expect(textsOf(pagesOf(demo!, open))[0]).toContain('It cannot be closed: Row 5 of counts.csv could not be used.');
  });

  it('cuts many changes, and says how many are left out and who did not sign', () => {
    const [change] = closed.adjustments[0]!.changes;
    const many = {
      ...closed.adjustments[0]!,
      by: null,
      byDriver: [{ driver: null, overShort: 200, carriedTo: { entry: 50, route: 'R7', day: '2026-11-25' } }],
      changes: Array.from({ length: 300 }, () => change!),
    };
    const [text] = textsOf(
      pagesOf(roundOf([ordinary]), { ...closed, adjustments: [many], pending: [], pendingAdjustment: null }),
    );
    expect(text).toContain(
      'Recorded 2026-11-25 06:00 UTC. Over/short changed by +2.00 EUR, because of late.dex (entry 40), counts.csv row 3. no driver named: +2.00, carried into route R7, 2026-11-25 (entry 50).',
    );
    expect(text).toContain('And 200 changes more: see the entry.');
  });
});

describe('hostile text', () => {
  it('shows as text on a sheet, cut where it is long', () => {
    for (const text of [...HOSTILE_TEXTS, HUGE_TEXT]) {
      const visit = {
        ...ordinary,
        machine: text,
        location: text,
        driver: text,
        drivers: [text],
        bag: text,
        jointBags: [text],
        capture: text,
        since: text,
        findings: [makeFinding('short', text, { advice: text, file: text }), makeFinding('duplicate-read', text)],
      };
      const pages = pagesOf(roundOf([visit], { route: text }), closedRound({ by: text, machine: text, driver: text }), [
        text,
      ]);
      for (const { name, text: html } of pages.files) {
        expect(name).toMatch(/^settlement-[a-z0-9-]+\.html$/);
        expect(html).not.toMatch(
          /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\u200b]|\p{Surrogate}/u,
        );
        expect(html.length).toBeLessThan(60_000);
      }
    }
  });
});

describe('a visit of which as much is said as can be', () => {
  it('fits on a page all the same', () => {
    const worst = '\u{e0001}'.repeat(3_000);
    const codes = ['short', 'over', 'kinds-differ', 'no-capture', 'no-opening', 'bad-cell', 'cut-short', 'clock-wrong'];
    const findings = [...codes, 'event-active', 'duplicate-read'].flatMap((code) =>
      Array.from({ length: 9 }, () => makeFinding(code as 'short', worst, { advice: worst, file: worst })),
    );
    const visit = { ...ordinary, machine: worst, location: worst, bag: worst, capture: worst, since: worst, findings };
    const pages = pagesOf(roundOf([visit, visit]), closing, []);
    expect(Math.max(...pages.files.map(({ text }) => byteLength(text)))).toBeLessThanOrEqual(LARGEST_PAGE);
  });
});

describe('a long round', () => {
  const visits = Array.from({ length: 900 }, (_, place) => ({
    ...ordinary,
    machine: `V${place + 1}`,
    bag: `B${place}`,
  }));

  it('is divided into pages of less than 500 KB, sums and signatures on the last', () => {
    const pages = pagesOf(roundOf(visits), closing);
    expect(pages.files.length).toBeGreaterThan(2);
    expect(pages.files.map(({ name }) => name).slice(0, 2)).toEqual([
      'settlement-r7-eur.html',
      'settlement-r7-eur.2.html',
    ]);
    expect(Math.max(...pages.files.map(({ text }) => byteLength(text)))).toBeLessThanOrEqual(LARGEST_PAGE);
    const texts = textsOf(pages);
    expect(texts.map((text) => text.includes('Office: name, signature, date'))).toEqual(
      texts.map((_, place) => place === texts.length - 1),
    );
    expect(texts[0]).toContain('Continued.');
    expect(texts.join(' ').match(/ V\d+ Library foyer B\d+ /g)).toHaveLength(900);
  });
});
