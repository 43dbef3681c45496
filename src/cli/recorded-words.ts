import type { NotClosed, Recorded } from '../book/closing/index.js';
import { plural, printable } from '../index.js';

/** What was asked for and not done, a line each, with what to do: it comes before everything else. */
export function sayNotDone({ refusals, notClosed }: Pick<Recorded, 'refusals' | 'notClosed'>): string[] {
  const refused = refusals.map(({ message, advice }) => (advice === undefined ? message : `${message} ${advice}`));
  return [...refused, ...notClosed.map(sayNotClosed)];
}

function sayNotClosed({ route, day, inTheWay }: NotClosed): string {
  const name = printable(`${route === null ? 'No route' : `Route ${route}`}, ${day}`, 200);
  const what = inTheWay.some((each) => each.startsWith('Row '))
    ? 'Correct the row in the sheet and run this again'
    : 'Clear that up and run this again';
  return `${name} was not closed. ${inTheWay.join(' ')} ${what}, or close it all the same with --close-anyway and the reason.`;
}

/** What was recorded, beside the report, which says what the book has now. */
export function tellRecorded(recorded: Recorded): string {
  const { counts, unusable, corrections, withdrawals, closed, adjustments, leftOpen, first } = recorded;
  const parts = [
    [counts, 'count', 'counts'],
    [unusable, 'row that could not be used', 'rows that could not be used'],
    [corrections, 'correction', 'corrections'],
    [withdrawals, 'count taken out', 'counts taken out'],
    [closed, 'settlement closed', 'settlements closed'],
    [adjustments, 'adjustment', 'adjustments'],
  ] as const;
  const said = parts.filter(([number]) => number > 0).map(([number, one, many]) => plural(number, one, many));
  const more: string[] = [];
  if (leftOpen > 0) {
    const rounds = leftOpen === 1 ? '1 round without any bag stays' : `${leftOpen} rounds without any bag stay`;
    const each =
      leftOpen === 1
        ? 'close it with --route once its counts are in'
        : 'close each with --route once its counts are in';
    more.push(`${rounds} open: ${each}`);
  }
  if (first > 0)
    more.push(
      `${plural(first, 'round')} ${first === 1 ? 'needs' : 'need'} no closing: no collection is known before, and counting begins here`,
    );
  return [said.length === 0 ? 'nothing new to record' : `recorded ${said.join(', ')}`, ...more].join('; ');
}
