import { describe, expect, it } from 'vitest';
import { ELEMENT, type ElementName, SEGMENTS, SOURCES, type Span } from '../../src/dictionary/index.js';

// What two machine manuals print of their capture layouts: each element beside what it counts and since when.
// [element, words of its meaning, span]
type PrintedElement = readonly [ElementName, string, Span | null];

/** AMS Sensit 3 VCB operation and service manual L0118P-SP, p. 62. */
const L0118P_SP_PAGE_62: readonly PrintedElement[] = [
  ['BA101', 'bill validator serial number', null],
  ['BA102', 'bill validator model number', null],
  ['BA103', 'bill validator software revision', null],
  ['CA101', 'coin mechanism serial number', null],
  ['CA102', 'coin mechanism model number', null],
  ['CA103', 'coin mechanism software revision', null],
  ['CA201', 'cash sales, value', 'init'],
  ['CA202', 'cash sales, number', 'init'],
  ['CA203', 'cash sales, value', 'reset'],
  ['CA204', 'cash sales, number', 'reset'],
  ['CA301', 'cash in, value', 'reset'],
  ['CA302', 'cash to cash box, value', 'reset'],
  ['CA303', 'cash to tubes, value', 'reset'],
  ['CA304', 'bills in', 'reset'],
  ['CA305', 'cash in, value', 'init'],
  ['CA306', 'cash to cash box, value', 'init'],
  ['CA307', 'cash to tubes, value', 'init'],
  ['CA308', 'bills in', 'init'],
  ['CA309', 'bills in, value', 'reset'],
  ['CA310', 'bills in, value', 'init'],
  ['CA401', 'cash dispensed, value', 'reset'],
  ['CA402', 'cash dispensed by hand, value', 'reset'],
  ['CA403', 'cash dispensed, value', 'init'],
  ['CA404', 'cash dispensed by hand, value', 'init'],
  ['CA601', 'audit reads, number', 'init'],
  ['CA602', 'door openings, number', 'init'],
  ['CA701', 'cash discounts, value', 'reset'],
  ['CA702', 'cash discounts, value', 'init'],
  ['CA703', 'cash discounts, number', 'reset'],
  ['CA704', 'cash discounts, number', 'init'],
  ['CA801', 'cash overpaid, value', 'reset'],
  ['CA802', 'cash overpaid, value', 'init'],
];

/** AMS Epic/Sensit 3 manual L0190D, p. 42. */
const L0190D_PAGE_42: readonly PrintedElement[] = [
  ['ID101', 'machine serial number', null],
  ['ID102', 'machine model number', null],
  ['ID106', 'machine asset number', null],
  ['ID107', 'data transfer standard level', null],
  ['ID108', 'data transfer standard revision', null],
  ['ID401', 'decimal point position', null],
  ['ID402', 'numeric currency code', null],
  ['ID403', 'alphabetic currency code', null],
  ['ID501', 'machine date', null],
  ['ID502', 'machine time', null],
  ['ID504', 'daylight saving rule', null],
  ['IC101', 'machine serial number', null],
  ['IC501', 'date', null],
  ['IC502', 'time', null],
  ['IC504', 'daylight saving rule', null],
  ['PA101', 'product number', null],
  ['PA102', 'price', null],
  ['PA103', 'product identification', null],
  ['PA107', 'selection status', null],
  ['PA201', 'paid vends, number', 'init'],
  ['PA202', 'paid vends, value', 'init'],
  ['PA203', 'paid vends, number', 'reset'],
  ['PA204', 'paid vends, value', 'reset'],
  ['PA205', 'discounted paid vends, number', 'init'],
  ['EA301', 'reads with reset, number', 'init'],
  ['EA302', 'date of this read', null],
  ['EA303', 'time of this read', null],
  ['EA304', 'identifier of this reader', null],
  ['EA305', 'date of the last read', null],
  ['EA306', 'time of the last read', null],
  ['EA307', 'identifier of the last reader', null],
  ['EA308', 'user-defined field', null],
  ['EA309', 'reads, number', 'init'],
  ['EA310', 'resets, number', 'init'],
  ['EA401', 'date of (first) initialisation', null],
  ['EA402', 'time of (first) initialisation', null],
  ['EA403', 'identifier of the reader that initialised', null],
  ['EA701', 'power outages, number', 'reset'],
  ['EA702', 'power outages, number', 'init'],
  ['MA501', 'status identifier', null],
  ['MA502', 'cabinet temperature in degrees Fahrenheit', null],
  ['MA503', 'cabinet temperature in degrees Celsius', null],
  ['G8501', 'integrity check value', null],
];

const PAGES = [
  { manual: 'L0118P-SP, p. 62', source: SOURCES.L0118P, printed: L0118P_SP_PAGE_62 },
  { manual: 'L0190D, p. 42', source: SOURCES.L0190D, printed: L0190D_PAGE_42 },
];

describe.each(PAGES)('manual $manual', ({ manual, source, printed }) => {
  it('is cited by its page', () => {
    expect(source).toContain(manual);
  });

  it.each(printed)('prints %s as %j, since %s', (name, words, span) => {
    expect(ELEMENT[name].meaning).toContain(words);
    expect(ELEMENT[name].span).toBe(span);
    expect(ELEMENT[name].sources).toContain(source);
  });

  it('is the source of no other element', () => {
    const citing = SEGMENTS.flatMap((segment) => segment.elements).filter((each) => each.sources.includes(source));
    expect(citing.map((element) => element.name).sort()).toEqual(printed.map(([name]) => name).sort());
  });
});
