import { type CautionName, COUNT_CAUTIONS, cautionsOf, type Finding } from '../../findings/index.js';
import type { Settlement, VisitState } from '../../settlement/index.js';
import type { BookFactsJson } from '../shapes/closing.js';
import { layCautions } from './cautions-text.js';
import { tellsOverShort } from './closing-text.js';
import { layFindings } from './findings-text.js';
import { laySettlement } from './settlement-text.js';
import type { Style } from './style.js';
import { splitUnusedSheets } from './unused-sheets.js';
import { plural } from './words.js';
import { joinParts } from './wrap-text.js';

/**
 * Settled rounds as one report. One alone stands for itself; several begin with how their visits stand. A sheet that could
 * not be used comes before all of it: nothing below can be read without knowing that.
 *
 * @param inBook - what the book says of them, where they were looked up in one
 */
export function laySettlements(
  settlements: readonly Settlement[],
  general: readonly Finding[],
  style: Style,
  inBook: ReadonlyMap<Settlement, BookFactsJson> = new Map(),
): string[] {
  const visits = settlements.flatMap((settlement) => settlement.visits);
  const findings = [
    ...general,
    ...settlements.flatMap((settlement) => settlement.findings),
    ...visits.flatMap((visit) => visit.findings),
  ];
  const { unused, others } = splitUnusedSheets(general);
  return [
    ...joinParts([
      ...(unused.length === 0 ? [] : [layFindings(unused, style)]),
      ...(settlements.length === 1 ? [] : [[style.bold(summarize(settlements) + closedWords(settlements, inBook))]]),
      ...settlements.map((settlement) => laySettlement(settlement, style, inBook.get(settlement) ?? null)),
      ...(others.length === 0 ? [] : [layFindings(others, style)]),
    ]),
    ...layCautions([...cautionsOf(findings), ...cautionsOfRounds(inBook)], style),
  ];
}

/** A difference that came after a closing, or is carried into it, calls for the same care as one that was found at it. */
function cautionsOfRounds(inBook: ReadonlyMap<Settlement, BookFactsJson>): readonly CautionName[] {
  return [...inBook.values()].some(tellsOverShort) ? COUNT_CAUTIONS : [];
}

function closedWords(settlements: readonly Settlement[], inBook: ReadonlyMap<Settlement, BookFactsJson>): string {
  const closed = settlements.filter((settlement) => (inBook.get(settlement)?.closing ?? null) !== null);
  if (closed.length === 0) return '';
  return closed.length === settlements.length ? ' All are closed.' : ` ${closed.length} of them closed.`;
}

const STATES: readonly VisitState[] = ['agreed', 'over', 'short', 'uncounted', 'unread', 'unsettled'];

function summarize(settlements: readonly Settlement[]): string {
  if (settlements.length === 0) return 'Nothing to settle: no count fits the route and day asked for.';
  const visits = settlements.flatMap((settlement) => settlement.visits);
  const states = STATES.map((state) => [state, visits.filter((visit) => visit.state === state).length] as const)
    .filter(([, count]) => count > 0)
    .map(([state, count]) => `${count} ${state}`);
  return `${plural(settlements.length, 'round')}, ${plural(visits.length, 'visit')}: ${states.join(', ')}.`;
}
