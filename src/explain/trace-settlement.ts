import { isSettled, type Settlement, type Visit } from '../settlement/index.js';
import type { Traces } from './trace-interval.js';
import { makeStep, sumOf, type TraceStep, unknownStep } from './trace-step.js';
import { KINDS, nameVisit, traceVisit } from './trace-visit.js';

/** Every figure of a settlement by its id, such as `totals.overShort.total` or `visits.B4401.expected.coins`. */
export function traceSettlement(settlement: Settlement): Traces {
  const traces = new Map<string, () => TraceStep>(traceTotals(settlement));
  for (const visit of settlement.visits) {
    const prefix = `visits.${keyOf(visit, settlement)}.`;
    for (const [name, trace] of traceVisit(visit)) traces.set(prefix + name, () => placeRefs(trace(), prefix));
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

/** What a visit adds to a sum: null is not known, undefined has no part in it. */
type Pick = (visit: Visit) => number | null | undefined;

/** One sum over the settled visits. */
interface Sum {
  readonly what: string;
  /** The figure of a visit that it adds up. */
  readonly figure: string;
  readonly pick: Pick;
  readonly unit: TraceStep['unit'];
}

function traceTotals(settlement: Settlement): Map<string, () => TraceStep> {
  const traces = new Map<string, () => TraceStep>();
  const total = (name: string, what: string, pick: Pick, unit: TraceStep['unit'] = 'money'): void => {
    traces.set(`totals.${name}`, () => sumVisits(settlement, { what, figure: name, pick, unit }));
  };
  for (const kind of KINDS) {
    total(`expected.${kind}`, `${kind} expected`, ({ expected }) => expected[kind]);
    // A kind that was not counted on a settled visit is one of which nothing was expected: it adds nothing.
    total(`counted.${kind}`, `${kind} counted`, ({ counted }) => counted[kind] ?? undefined);
    total(`overShort.${kind}`, `${kind} counted less expected`, ({ overShort }) => overShort[kind]);
  }
  total('overShort.total', 'counted less expected', ({ overShort }) => overShort.total);
  total('cardSales', 'card sales', ({ sales }) => sales.cardSales);
  total('sold', 'paid vends', ({ sales }) => sales.sold, 'count');
  total('value', 'value of paid vends', ({ sales }) => sales.value);
  total('loss', 'lost by prices off plan', ({ sales }) => (sales.hasPlan ? sales.loss : undefined));
  return traces;
}

function sumVisits(settlement: Settlement, { what, figure, pick, unit }: Sum): TraceStep {
  const parts: TraceStep[] = [];
  for (const visit of settlement.visits.filter(isSettled)) {
    const value = pick(visit);
    if (value === undefined) continue;
    const ref = `visits.${keyOf(visit, settlement)}.${figure}`;
    parts.push(makeStep({ how: 'figure', label: nameVisit(visit), value, unit, ref }));
  }
  const label = `All settled visits: ${what}`;
  const isNone = settlement.visits.every((visit) => !isSettled(visit));
  if (isNone || (figure === 'loss' && parts.length === 0)) return unknownStep(label, unit, 'No settled visit has it.');
  const isKnown = parts.every(({ value }) => value !== null);
  return isKnown ? sumOf(label, unit, parts) : unknownStep(label, unit, 'Not every settled visit is known.', parts);
}
