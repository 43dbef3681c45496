import { type Interval, valueOrNothing } from '../interval/index.js';
import type { CountRow } from '../model/index.js';
import { type ExpectedLine, isSettled, type Settlement, type Visit } from '../settlement/index.js';
import { traceDifference } from './trace-difference.js';
import { type Traces, traceInterval } from './trace-interval.js';
import { constant, makeStep, sumOf, type TraceStep, unknownStep } from './trace-step.js';

const KINDS = ['coins', 'bills'] as const;
type Kind = (typeof KINDS)[number];

/** Every figure of a settlement by its id, such as `totals.overShort.total` or `visits.B4401.expected.coins`. */
export function traceSettlement(settlement: Settlement): Traces {
  const traces = new Map<string, () => TraceStep>(traceTotals(settlement));
  for (const visit of settlement.visits) {
    const key = keyOf(visit, settlement);
    for (const [name, trace] of traceVisit(visit)) {
      traces.set(`visits.${key}.${name}`, () => placeRefs(trace(), `visits.${key}.`));
    }
  }
  return traces;
}

/** A visit's bag, where no other visit has it; else its machine and time. */
function keyOf({ bag, machine, visitedAt }: Visit, { visits }: Settlement): string {
  const isOwn = bag !== null && visits.filter((visit) => visit.bag === bag).length === 1;
  return isOwn ? bag : `${machine}@${visitedAt ?? ''}`;
}

/** Figures of a visit name each other from the settlement on. */
function placeRefs(step: TraceStep, prefix: string): TraceStep {
  const ref = step.ref === null ? null : prefix + step.ref;
  return { ...step, ref, parts: step.parts.map((part) => placeRefs(part, prefix)) };
}

function traceVisit(visit: Visit): Map<string, () => TraceStep> {
  const traces = new Map<string, () => TraceStep>();
  for (const kind of KINDS) {
    traces.set(`expected.${kind}`, () => traceExpected(visit, kind));
    traces.set(`counted.${kind}`, () => traceCounted(visit, kind));
    traces.set(`overShort.${kind}`, () => traceOverShort(visit, kind));
  }
  traces.set('overShort.total', () => traceOverShortTotal(visit));
  // What happened in the machine since the last collection, figure by figure.
  if (visit.interval !== null) for (const [id, trace] of traceInterval(visit.interval)) traces.set(id, trace);
  return traces;
}

const LINE_WORDS: Readonly<Record<ExpectedLine['what'], string>> = {
  'to-cash-box': 'to the cash box',
  'paid-out': 'paid out by hand',
  filled: 'filled by hand',
  'float-issued': 'float issued',
  bills: 'bills',
};

function traceExpected(visit: Visit, kind: Kind): TraceStep {
  const label = `${nameOf(visit)}: ${kind} that should be in the bag`;
  const lines = visit.expectedLines.filter((line) => line.kind === kind);
  const floor = visit.expectedIsFloor ? 'The true figure may be higher.' : null;
  if (lines.length === 0)
    return unknownStep(label, 'money', 'There is no collection to count from, or no capture to count to.');
  const parts = lines.map((line) => traceLine(line, visit));
  return visit.expected[kind] === null
    ? unknownStep(label, 'money', 'A part of it is not known.', parts)
    : sumOf(label, 'money', parts, floor);
}

/** One line of what is expected; its amount carries its own sign. */
function traceLine({ what, amount, source }: ExpectedLine, visit: Visit): TraceStep {
  const label = LINE_WORDS[what];
  if (amount === null) return unknownStep(label, 'money', 'It is not known.');
  const sign = what === 'filled' ? -1 : 1;
  if (source === 'sheet') {
    const field = { 'paid-out': 'paidOut', filled: 'filled', 'float-issued': 'floatIssued' } as const;
    const rows = what === 'to-cash-box' || what === 'bills' ? [] : rowSteps(visit.counts, field[what]);
    return { ...sumOf(label, 'money', rows), sign };
  }
  const moved = visit.interval === null ? null : traceLineCounter(what, visit.interval);
  if (moved !== null && moved.value !== null && sign * moved.value === amount) return { ...moved, sign };
  return constant(label, amount, 'money', 'The sum over the reads in between, since it is not known from end to end.');
}

function traceLineCounter(what: ExpectedLine['what'], interval: Interval): TraceStep | null {
  const { differences: moved, cash } = interval;
  if (what === 'bills') {
    return makeStep({ how: 'figure', label: LINE_WORDS.bills, value: cash.bills, unit: 'money', ref: 'cash.bills' });
  }
  const difference = what === 'to-cash-box' ? moved.toCashBox : what === 'paid-out' ? moved.byHand : moved.filled;
  const step = traceDifference(LINE_WORDS[what], difference, interval);
  if (step.value !== null || valueOrNothing(difference) === null) return step;
  return constant(LINE_WORDS[what], 0, 'money', 'No such counter: none were booked.');
}

function rowSteps(
  rows: readonly CountRow[],
  field: 'coins' | 'bills' | 'paidOut' | 'filled' | 'floatIssued',
): TraceStep[] {
  const header = { coins: 'coins', bills: 'bills', paidOut: 'paid_out', filled: 'filled', floatIssued: 'float_issued' }[
    field
  ];
  return rows
    .filter((row) => row[field] !== null)
    .map((row) =>
      makeStep({
        how: 'sheet',
        label: row.bag === null ? `${header}, as the sheet says` : `${header} of bag ${row.bag}, as the sheet says`,
        value: row[field],
        unit: 'money',
        place: { file: row.place.file, row: row.place.row, field: header },
      }),
    );
}

function traceCounted(visit: Visit, kind: Kind): TraceStep {
  const label = `${nameOf(visit)}: ${kind} counted`;
  const rows = rowSteps(visit.counts, kind);
  if (visit.counted[kind] !== null) return sumOf(label, 'money', rows);
  return unknownStep(
    label,
    'money',
    visit.counts.length === 0 ? 'No bag was counted for this visit.' : `The sheet gives no ${kind}.`,
    rows,
  );
}

function traceOverShort(visit: Visit, kind: Kind): TraceStep {
  const label = `${nameOf(visit)}: ${kind} counted less expected`;
  const counted = traceCounted(visit, kind);
  const expected = traceExpected(visit, kind);
  if (visit.overShort[kind] === null) {
    return unknownStep(label, 'money', `The visit is ${visit.state}, so nothing is set against each other.`, [
      counted,
      { ...expected, sign: -1 },
    ]);
  }
  if (visit.counted[kind] === null) return constant(label, 0, 'money', 'None expected and none counted.');
  return sumOf(label, 'money', [counted, { ...expected, sign: -1 }]);
}

function traceOverShortTotal(visit: Visit): TraceStep {
  const label = `${nameOf(visit)}: counted less expected`;
  const parts = KINDS.map((kind) => traceOverShort(visit, kind));
  return visit.overShort.total === null
    ? unknownStep(label, 'money', `The visit is ${visit.state}.`, parts)
    : sumOf(label, 'money', parts);
}

function nameOf({ machine, bag }: Visit): string {
  return bag === null ? machine : `${machine}, bag ${bag}`;
}

function traceTotals(settlement: Settlement): Map<string, () => TraceStep> {
  const traces = new Map<string, () => TraceStep>();
  const total = (name: string, what: string, figure: string, pick: Pick, unit: TraceStep['unit'] = 'money'): void => {
    traces.set(`totals.${name}`, () => sumVisits(settlement, { what, figure, pick, unit }));
  };
  for (const group of ['expected', 'counted', 'overShort'] as const) {
    for (const kind of KINDS) {
      total(`${group}.${kind}`, `${kind}, ${GROUP_WORDS[group]}`, `${group}.${kind}`, (visit) => visit[group][kind]);
    }
  }
  total('overShort.total', GROUP_WORDS.overShort, 'overShort.total', (visit) => visit.overShort.total);
  total('cardSales', 'card sales', 'cash.cardSales', cardSalesOf);
  total('sold', 'paid vends', 'totals.sold', ({ interval }) => interval?.totals.sold ?? null, 'count');
  total('value', 'value of paid vends', 'totals.value', ({ interval }) => interval?.totals.value ?? null);
  // Machines without a plan have no loss that could be known, and are in no sum.
  total('loss', 'what prices off plan cost', 'totals.loss', ({ interval }) => interval?.totals.loss ?? undefined);
  return traces;
}

const GROUP_WORDS = { expected: 'expected', counted: 'counted', overShort: 'counted less expected' } as const;

/** A machine without card counters sold nothing by card. */
function cardSalesOf({ interval }: Visit): number | null {
  if (interval === null) return null;
  const { cardSales1, cardSales2 } = interval.differences;
  return cardSales1.why === 'absent' && cardSales2.why === 'absent' ? 0 : interval.cash.cardSales;
}

/** What a visit adds to a sum: null is not known, undefined has no part in it. */
type Pick = (visit: Visit) => number | null | undefined;

/** A sum over the settled visits: others are in no sum. */
function sumVisits(
  settlement: Settlement,
  { what, figure, pick, unit }: { what: string; figure: string; pick: Pick; unit: TraceStep['unit'] },
): TraceStep {
  const parts: TraceStep[] = [];
  for (const visit of settlement.visits.filter(isSettled)) {
    const value = pick(visit);
    if (value === undefined) continue;
    const ref = `visits.${keyOf(visit, settlement)}.${figure}`;
    parts.push(makeStep({ how: 'figure', label: nameOf(visit), value, unit, ref }));
  }
  const label = `All settled visits: ${what}`;
  if (figure === 'totals.loss' && parts.length === 0) return unknownStep(label, unit, 'No plan was given.');
  const isKnown = parts.every(({ value }) => value !== null);
  return isKnown ? sumOf(label, unit, parts) : unknownStep(label, unit, 'Not every settled visit is known.', parts);
}
