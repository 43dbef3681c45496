import type { Interval } from '../interval/index.js';
import type { Settlement } from '../settlement/index.js';
import { type Traces, traceInterval } from './trace-interval.js';
import { traceSettlement } from './trace-settlement.js';
import type { FigureTrace } from './trace-step.js';

/** What figures are traced in. */
export type FigureSource = Interval | Settlement;

/**
 * The arithmetic behind a figure of an interval or a settlement: which elements of which lines it rests on, with their
 * values, or why it is not known.
 *
 * @param id - the path of the figure in the JSON output, with the column's name or the visit's bag (else machine@time) in
 *   place of its index: `columns.11.sold`, `cash.toCashBox`, `visits.B4401.expected.coins`, `totals.overShort.total`
 * @returns null when there is no such figure; {@link listFigureIds} says which there are
 */
export function traceFigure(source: FigureSource, id: string): FigureTrace | null {
  const step = tracesOf(source).get(id)?.();
  if (step === undefined) return null;
  return { id, currency: source.currency, decimals: source.decimals, step };
}

/** The ids of all figures of an interval or settlement. */
export function listFigureIds(source: FigureSource): string[] {
  return [...tracesOf(source).keys()];
}

// Who asks for one figure often asks for those it rests on.
const TRACES = new WeakMap<FigureSource, Traces>();

function tracesOf(source: FigureSource): Traces {
  let traces = TRACES.get(source);
  if (traces === undefined) {
    traces = 'visits' in source ? traceSettlement(source) : traceInterval(source);
    TRACES.set(source, traces);
  }
  return traces;
}
