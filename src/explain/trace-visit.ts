import { type Interval, isInterval, valueOrNothing } from '../interval/index.js';
import type { CountRow } from '../model/index.js';
import type { ExpectedLine, Visit, VisitSales } from '../settlement/index.js';
import { traceBills } from './trace-cash.js';
import { traceDifference } from './trace-difference.js';
import { traceInterval } from './trace-interval.js';
import { constant, inlineFigures, makeStep, negate, sumOf, type TraceStep, unknownStep } from './trace-step.js';

/** The kinds of cash. */
export const KINDS = ['coins', 'bills'] as const;
type Kind = (typeof KINDS)[number];

/** Every figure of a visit by its name, those of what happened in the machine since the last collection included. */
export function traceVisit(visit: Visit): Map<string, () => TraceStep> {
  const traces = new Map<string, () => TraceStep>();
  for (const kind of KINDS) {
    traces.set(`expected.${kind}`, () => traceExpected(visit, kind));
    traces.set(`counted.${kind}`, () => traceCounted(visit, kind));
    traces.set(`overShort.${kind}`, () => traceOverShort(visit, kind));
  }
  traces.set('overShort.total', () => traceOverShortTotal(visit));
  for (const [name, { figure, unit }] of Object.entries(SALES)) {
    traces.set(name, () => traceSales(visit, name as keyof typeof SALES, figure, unit));
  }
  if (visit.interval !== null) for (const [id, trace] of traceInterval(visit.interval)) traces.set(id, trace);
  return traces;
}

/** The name of a visit in words. */
export function nameVisit({ machine, bag }: Visit): string {
  return bag === null ? machine : `${machine}, bag ${bag}`;
}

const LINE_WORDS: Readonly<Record<ExpectedLine['what'], string>> = {
  'to-cash-box': 'to the cash box',
  'paid-out': 'paid out by hand',
  filled: 'filled by hand',
  'float-issued': 'float issued',
  bills: 'bills',
};

function traceExpected(visit: Visit, kind: Kind): TraceStep {
  const label = `${nameVisit(visit)}: ${kind} that should be in the bag`;
  const lines = visit.expectedLines.filter((line) => line.kind === kind);
  if (lines.length === 0) {
    return unknownStep(label, 'money', 'There is no collection to count from, or no capture to count to.');
  }
  const parts = lines.map((line) => traceLine(line, visit));
  if (visit.expected[kind] === null) return unknownStep(label, 'money', 'A part of it is not known.', parts);
  return sumOf(label, 'money', parts, visit.expectedIsFloor ? 'The true figure may be higher.' : null);
}

/** One line of what is expected; what was filled is taken away. */
function traceLine({ what, amount, source }: ExpectedLine, visit: Visit): TraceStep {
  const label = LINE_WORDS[what];
  const signed = (step: TraceStep): TraceStep => (what === 'filled' ? negate(step) : step);
  const parts = source === 'sheet' ? rowSteps(visit.counts, FIELDS[what]) : counterSteps(what, visit);
  if (amount === null) return signed(unknownStep(label, 'money', 'It is not known for all of the time.', parts));
  return signed(parts.length === 1 ? { ...parts[0]!, label } : sumOf(label, 'money', parts));
}

/** What a counter moved by, from read to read, or from the last collection to this one where that is enough. */
function counterSteps(what: ExpectedLine['what'], visit: Visit): TraceStep[] {
  const { expectedFrom } = visit;
  return expectedFrom.map((step) => {
    if (!isInterval(step)) throw new RangeError('a figure is traced where the reads it rests on are at hand');
    const label = expectedFrom.length === 1 ? LINE_WORDS[what] : `up to ${step.clockTo ?? step.to.file}`;
    return traceCounter(what, label, step, step === visit.interval);
  });
}

function traceCounter(what: ExpectedLine['what'], label: string, interval: Interval, isOwn: boolean): TraceStep {
  if (what === 'bills') return { ...billsOrNone(interval, isOwn), label };
  const { toCashBox, byHand, filled } = interval.differences;
  const difference = what === 'to-cash-box' ? toCashBox : what === 'paid-out' ? byHand : filled;
  const traced = traceDifference(label, difference, interval);
  const isNone = what !== 'to-cash-box' && traced.value === null && valueOrNothing(difference) === 0;
  return isNone ? constant(label, 0, 'money', 'The machine has no such counter: none were booked.') : traced;
}

/** Figures of an interval that is not the visit's own can not be asked for, so they are worked out in their place. */
function billsOrNone(interval: Interval, isOwn: boolean): TraceStep {
  const step = isOwn ? traceBills(interval) : inlineFigures(traceBills(interval), traceInterval(interval));
  const takesNone = interval.cash.bills === null && interval.to.machine?.hasBills === false;
  return takesNone ? constant('bills', 0, 'money', 'The machine takes no bills, the roster says.') : step;
}

const FIELDS = {
  'to-cash-box': 'coins',
  'paid-out': 'paidOut',
  filled: 'filled',
  'float-issued': 'floatIssued',
  bills: 'bills',
} as const;
type Field = (typeof FIELDS)[keyof typeof FIELDS];
const HEADERS: Readonly<Record<Field, string>> = {
  coins: 'coins',
  bills: 'bills',
  paidOut: 'paid_out',
  filled: 'filled',
  floatIssued: 'float_issued',
};

function rowSteps(rows: readonly CountRow[], field: Field): TraceStep[] {
  return rows
    .filter((row) => row[field] !== null)
    .map(({ bag, place, ...row }) => {
      const label = `${HEADERS[field]}${bag === null ? '' : ` of bag ${bag}`}, as the sheet says`;
      const at = { file: place.file, row: place.row, field: HEADERS[field] };
      return makeStep({ how: 'sheet', label, value: row[field], unit: 'money', place: at });
    });
}

function traceCounted(visit: Visit, kind: Kind): TraceStep {
  const label = `${nameVisit(visit)}: ${kind} counted`;
  const rows = rowSteps(visit.counts, kind);
  if (visit.counted[kind] !== null) return sumOf(label, 'money', rows);
  const why =
    visit.counts.length === 0
      ? 'No bag was counted for this visit.'
      : `It is not certain what the ${kind} of its bags come to.`;
  return unknownStep(label, 'money', why, rows);
}

function traceOverShort(visit: Visit, kind: Kind): TraceStep {
  const label = `${nameVisit(visit)}: ${kind} counted less expected`;
  if (visit.overShort[kind] !== null && visit.counted[kind] === null) {
    return constant(label, 0, 'money', 'None expected and none counted.');
  }
  const parts = [traceCounted(visit, kind), negate(traceExpected(visit, kind))];
  if (visit.overShort[kind] !== null) return sumOf(label, 'money', parts);
  return unknownStep(label, 'money', `The visit is ${visit.state}, so nothing is set against each other.`, parts);
}

function traceOverShortTotal(visit: Visit): TraceStep {
  const label = `${nameVisit(visit)}: counted less expected`;
  const parts = KINDS.map((kind) => traceOverShort(visit, kind));
  if (visit.overShort.total !== null) return sumOf(label, 'money', parts);
  return unknownStep(label, 'money', `The visit is ${visit.state}.`, parts);
}

/** Where in the interval since the last collection a visit's sales come from. */
const SALES = {
  sold: { figure: 'totals.sold', unit: 'count' },
  value: { figure: 'totals.value', unit: 'money' },
  cardSales: { figure: 'cash.cardSales', unit: 'money' },
  loss: { figure: 'totals.loss', unit: 'money' },
} as const satisfies Record<Exclude<keyof VisitSales, 'hasPlan'>, object>;

function traceSales(visit: Visit, name: keyof typeof SALES, figure: string, unit: TraceStep['unit']): TraceStep {
  const value = visit.sales[name];
  const words = { sold: 'paid vends', value: 'value of paid vends', cardSales: 'card sales', loss: 'lost by prices' }[
    name
  ];
  const label = `${nameVisit(visit)}: ${words} since the last collection`;
  if (value === null) return unknownStep(label, unit, 'It is not known for all of the time.');
  const step = visit.interval === null ? undefined : traceInterval(visit.interval).get(figure)?.();
  const hasNoCounters = name === 'cardSales' && value === 0 && step?.how === 'constant';
  if (step?.value === value && !hasNoCounters) {
    return sumOf(label, unit, [makeStep({ how: 'figure', label: step.label, value, unit, ref: figure })]);
  }
  const note = hasNoCounters ? 'The machine has no card counters.' : 'Added up from read to read.';
  return constant(label, value, unit, note);
}
