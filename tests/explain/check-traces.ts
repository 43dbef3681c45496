import { expect } from 'vitest';
import { type FigureSource, listFigureIds, recompute, type TraceStep, traceFigure } from '../../src/explain/index.js';
import { intervalToJson, settlementToJson } from '../../src/report/index.js';

/** Looks up the figure that the JSON output prints under an id: names of columns and visits stand for their index. */
function printedFigures(source: FigureSource): (id: string) => number | null {
  if (!('visits' in source)) {
    const json = intervalToJson(source);
    return (id) => figureAt(json, id);
  }
  const json = settlementToJson(source);
  const own = source.visits.map(({ interval }) => (interval === null ? null : intervalToJson(interval)));
  return (id) => {
    const [, key, rest] = /^visits\.([^.]+)\.(.*)$/.exec(id) ?? [];
    if (key === undefined) return figureAt(json, id);
    const at = json.visits.findIndex(({ bag, machine, visitedAt }) => bag === key || `${machine}@${visitedAt}` === key);
    return figureAt(/^(?:columns|totals|cash)\./.test(rest!) ? own[at] : json.visits[at], rest!);
  };
}

function figureAt(json: unknown, id: string): number | null {
  const [, column, name] = /^columns\.(.+)\.(\w+)$/.exec(id) ?? [];
  if (column !== undefined) {
    const columns = (json as { columns: Record<string, unknown>[] }).columns;
    return columns.find((one) => one.column === column)![name!] as number | null;
  }
  let value = json;
  for (const key of id.split('.')) value = (value as Record<string, unknown>)[key];
  return value as number | null;
}

const refsOf = (step: TraceStep): [id: string, value: number | null][] => [
  ...(step.ref === null ? [] : [[step.ref, step.value] as [string, number | null]]),
  ...step.parts.flatMap(refsOf),
];

/**
 * Hold every figure of an interval or settlement against its trace: the arithmetic done anew gives what is printed, and
 * every figure it refers to is one that can be asked for and has that value.
 *
 * @returns how many figures are known, and how many are not
 */
export function checkTraces(source: FigureSource): { known: number; unknown: number } {
  const printed = printedFigures(source);
  const ids = listFigureIds(source);
  const traces = ids.map((id) => traceFigure(source, id)!.step);
  expect(traces.map((step, i) => [ids[i], step.value, recompute(step)])).toEqual(
    ids.map((id) => [id, printed(id), printed(id)]),
  );
  const unknown = ids.filter((id) => printed(id) === null);
  expect(unknown.filter((id) => traceFigure(source, id)!.step.note === null)).toEqual([]);
  const refs = traces.flatMap(refsOf);
  expect(refs).toEqual(refs.map(([ref]) => [ref, ids.includes(ref) ? printed(ref) : 'no such figure']));
  return { known: ids.length - unknown.length, unknown: unknown.length };
}
