import { ELEMENT } from '../dictionary/index.js';
import { type Difference, type Interval, type TakenRead, valueOrNothing } from '../interval/index.js';
import { locate } from '../read/index.js';
import { readStep, traceDifference } from './trace-difference.js';
import { constant, makeStep, negate, recompute, sumOf, type TraceStep, unknownStep, withheld } from './trace-step.js';

/** How each figure of the cash of an interval comes about, by its name in the output. */
export function traceCash(interval: Interval): ReadonlyMap<string, () => TraceStep> {
  const { cash, differences: moved } = interval;
  const counter = (label: string, difference: Difference, printed: number | null) => (): TraceStep => {
    const step = traceDifference(label, difference, interval);
    if (printed === 0 && step.value === null) return constant(label, 0, 'money', NO_COUNTER);
    return printed === null && step.value !== null ? withheld(step) : step;
  };
  const both = (label: string, first: Difference, second: Difference, printed: number | null) => (): TraceStep =>
    traceBoth(label, [first, second], interval, printed);
  return new Map<string, () => TraceStep>([
    ['cashIn', counter('Cash in', moved.cashIn, cash.cashIn)],
    ['toCashBox', counter('Cash to the cash box', moved.toCashBox, cash.toCashBox)],
    ['toTubes', counter('Cash to the tubes', moved.toTubes, cash.toTubes)],
    ['bills', () => traceBills(interval)],
    ['dispensed', () => traceDispensed(interval)],
    ['byHand', counter('Paid out by hand', moved.byHand, cash.byHand)],
    ['filled', counter('Filled by hand', moved.filled, cash.filled)],
    ['overpaid', counter('Overpaid', moved.overpaid, cash.overpaid)],
    ['cashSales', counter('Cash sales', moved.cashSales, cash.cashSales)],
    ['cardSales', both('Card sales', moved.cardSales1, moved.cardSales2, cash.cardSales)],
    ['tokenSales', counter('Token sales', moved.tokenSales, cash.tokenSales)],
    ['credited', both('Credited to cards for cash', moved.credited1, moved.credited2, cash.credited)],
    ['tubesFrom', () => traceTubes('Tubes at the earlier read', interval.from, cash.tubesFrom)],
    ['tubesTo', () => traceTubes('Tubes at the later read', interval.to, cash.tubesTo)],
    ['tubeDifference', () => traceTubeDifference(interval)],
    ['customerDifference', () => traceCustomers(interval)],
  ]);
}

const NO_COUNTER = 'The machine has no such counter: none were booked.';
const NOT_SETTLED = 'What it rests on is not known, or does not fit together; the findings say which.';

function traceBoth(label: string, both: readonly Difference[], interval: Interval, printed: number | null): TraceStep {
  const present = both.filter(({ why }) => why !== 'absent');
  const parts = present.map((difference) => traceDifference(difference.element.meaning, difference, interval));
  if (present.length === 0 && printed === 0) return constant(label, 0, 'money', NO_COUNTER);
  if (present.length === 0) return unknownStep(label, 'money', 'The machine has no such counter; absent is not zero.');
  const step = sumOf(label, 'money', parts);
  return printed === null && step.value !== null ? withheld(step) : step;
}

/** A figure of the same interval. */
function ref(name: string, label: string, value: number | null): TraceStep {
  return makeStep({ how: 'figure', label, value, unit: 'money', ref: `cash.${name}` });
}

/** A figure of the same interval, where a counter that neither read has plays no part. */
function orNothing(name: string, label: string, difference: Difference): TraceStep {
  const value = valueOrNothing(difference);
  if (difference.value !== null || value === null) return ref(name, label, value);
  return constant(label, value, 'money', NO_COUNTER);
}

/** Bills are a value, or a number whose value follows from cash in. */
export function traceBills(interval: Interval): TraceStep {
  const { cash, pair } = interval;
  for (const [lifetime, since] of [
    ['CA310', 'CA309'],
    ['CA308', 'CA304'],
  ] as const) {
    const difference = pair.difference(lifetime, since);
    const step = traceDifference('Bills', difference, interval);
    if (step.value !== null && step.value === cash.bills) return step;
  }
  const n = pair.difference('CA308', 'CA304').value;
  const parts = [
    ref('cashIn', 'cash in', cash.cashIn),
    negate(ref('toCashBox', 'to the cash box', cash.toCashBox)),
    negate(
      interval.differences.toTubes.why === 'absent'
        ? constant('to the tubes', 0, 'money', NO_COUNTER)
        : ref('toTubes', 'to the tubes', cash.toTubes),
    ),
  ];
  if (cash.bills === null) return unknownStep('Bills', 'money', NOT_SETTLED, parts);
  const note =
    n === null
      ? 'No counter says it; it follows from cash in.'
      : `The machine gives bills as a number (${n}); their value follows from cash in.`;
  return sumOf('Bills', 'money', parts, note);
}

function traceDispensed(interval: Interval): TraceStep {
  const {
    cash,
    differences: { dispensed, byHand },
  } = interval;
  const all = traceDifference('dispensed, as the counter gives it', dispensed, interval);
  const label = 'Change to customers';
  if (cash.dispensed === null) return unknownStep(label, 'money', NOT_SETTLED, [all]);
  if (cash.dispensed === dispensed.value) return sumOf(label, 'money', [all]);
  const hand = negate(traceDifference('by hand, which this machine counts with it', byHand, interval));
  return sumOf(label, 'money', [all, hand]);
}

function traceTubes(label: string, taken: TakenRead, printed: number | null): TraceStep {
  const { read, file } = taken;
  const stated = readStep('as it stood', taken, ELEMENT.CA1501, null, read.integer('CA1501'));
  if (stated.value !== null) {
    const step = sumOf(label, 'money', [stated]);
    return printed === null ? withheld(step) : step;
  }
  if (printed === null) return unknownStep(label, 'money', 'The machine does not say what is in its tubes.', [stated]);
  const tubes = read.lines('CA17').map((line): TraceStep => {
    const at = (position: number, unit: TraceStep['unit'], what: string): TraceStep =>
      makeStep({
        how: 'element',
        label: what,
        value: read.block.number(line, position),
        unit,
        place: { file, ...locate(read, line, position) },
      });
    const parts = [at(2, 'money', 'coin value'), at(3, 'count', 'coins')];
    const step = makeStep({
      how: 'product',
      label: 'coins of one tube at their value',
      value: null,
      unit: 'money',
      parts,
    });
    return { ...step, value: recompute(step) };
  });
  return sumOf(label, 'money', tubes);
}

function traceTubeDifference(interval: Interval): TraceStep {
  const { cash, differences: moved } = interval;
  const label = 'Tube difference: what the tubes hold less what they should';
  const parts = [
    ref('tubesTo', 'tubes now', cash.tubesTo),
    negate(ref('tubesFrom', 'tubes before', cash.tubesFrom)),
    negate(ref('toTubes', 'to the tubes', cash.toTubes)),
    negate(orNothing('filled', 'filled by hand', moved.filled)),
    traceDifference('dispensed, as the counter gives it', moved.dispensed, interval),
  ];
  if (cash.tubeDifference === null) return unknownStep(label, 'money', NOT_SETTLED, parts);
  const included = sumOf(label, 'money', parts);
  if (included.value === cash.tubeDifference) return included;
  return sumOf(label, 'money', [
    ...parts,
    orNothing('byHand', 'paid out by hand, which this machine counts apart', moved.byHand),
  ]);
}

function traceCustomers(interval: Interval): TraceStep {
  const { cash, differences: moved } = interval;
  const label = 'Cash in less change, sales, overpaid and credited';
  const credited = cash.credited === null ? [] : [negate(ref('credited', 'credited to cards', cash.credited))];
  const parts = [
    ref('cashIn', 'cash in', cash.cashIn),
    negate(ref('cashSales', 'cash sales', cash.cashSales)),
    negate(orNothing('overpaid', 'overpaid', moved.overpaid)),
    ...credited,
    negate(ref('dispensed', 'change to customers', cash.dispensed)),
  ];
  if (cash.customerDifference !== null) return sumOf(label, 'money', parts);
  const note = cash.isCashBookedAsCard
    ? 'This machine books cash sales as card sales, so the two cannot be set against each other.'
    : NOT_SETTLED;
  return unknownStep(label, 'money', note, parts);
}
