import { ELEMENT, SEGMENTS, type SegmentDef } from '../dictionary/index.js';
import {
  adviseAtCabinet,
  compareSeverity,
  type Finding,
  makeFinding,
  printable,
  type Severity,
} from '../findings/index.js';
import { locate, type Malformed, type Read } from '../read/index.js';
import { type Check, NOTHING } from './check.js';
import { countOf, MOST_ALIKE, READ_AGAIN } from './wording.js';

/** Segments whose money and counts the accounts use. PA1 only for its price: how much a column holds is no account. */
const ACCOUNTED = /^(VA[123]|CA([2-5]|[7-9]|1\d)|D[AB][2-5]|TA2|PA[2347]|LA1)$/;
const IS_ACCOUNTED = Uint8Array.from(SEGMENTS, (segment: SegmentDef) => Number(ACCOUNTED.test(segment.id)));
const { PA102 } = ELEMENT;

/** Says which elements are not the numbers, dates or times they must be: such an element is not known, never zero. */
export const malformedCheck: Check = {
  codes: ['not-a-number', 'value-too-large', 'bad-date'],
  summary: 'Whether money and counts are whole numbers, and dates and times exist.',
  reference: 'domain rule: what is not all digits (a sign is allowed) is a fault of that element, never a zero',
  run(read) {
    const { malformed } = read.index;
    if (malformed.length === 0) return NOTHING;
    const findings = malformed.map((flaw) => describe(read, flaw)).sort(compareSeverity);
    if (findings.length <= MOST_ALIKE) return findings;
    const rest = findings.slice(MOST_ALIKE);
    const { code, severity, read: number } = rest[0]!;
    const more = makeFinding(code, `${countOf(rest.length, 'more element is', 'more elements are')} malformed.`, {
      severity,
      ...(number === undefined ? {} : { read: number }),
    });
    return [...findings.slice(0, MOST_ALIKE), more];
  },
};

function describe(read: Read, { line, position, what }: Malformed): Finding {
  const place = locate(read, line, position);
  const received = printable(read.block.text(line, position) ?? '', 40);
  const weight: Severity = isAccounted(read, line, position) ? 'fault' : 'doubt';
  const advice = weight === 'fault' ? READ_AGAIN : 'Do not rely on this element.';
  switch (what) {
    case 'not-digits':
      return makeFinding('not-a-number', `${place.element} reads "${received}", which is no whole number.`, {
        ...place,
        severity: weight,
        expected: 'digits, with or without a sign',
        received,
        advice,
      });
    case 'too-large':
      return makeFinding('value-too-large', `${place.element} reads ${received}, more than can be kept exactly.`, {
        ...place,
        severity: weight,
        expected: `at most ${Number.MAX_SAFE_INTEGER}`,
        received,
        advice,
      });
    default: {
      const kind = what === 'bad-date' ? 'date' : 'time';
      return makeFinding('bad-date', `${place.element} reads "${received}", a ${kind} that does not exist.`, {
        ...place,
        expected: kind === 'date' ? 'YYMMDD or YYYYMMDD' : 'HHMM or HHMMSS',
        received,
        ...adviseAtCabinet('Do not rely on this element; look at the clock of the machine.'),
      });
    }
  }
}

function isAccounted(read: Read, line: number, position: number): boolean {
  const kind = read.block.kind(line);
  return kind === PA102.segmentIndex ? position === PA102.position : IS_ACCOUNTED[kind] === 1;
}
