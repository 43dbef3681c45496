import type { LocationStatement } from '../../accounts/index.js';
import { cautionsOf, type Finding } from '../../findings/index.js';
import { addAll, describeMoney } from '../../model/index.js';
import { layCautions } from './cautions-text.js';
import { layFindings } from './findings-text.js';
import { layStatement } from './statement-text.js';
import type { Style } from './style.js';
import { splitUnusedSheets } from './unused-sheets.js';
import { plural } from './words.js';
import { hangText, joinParts } from './wrap-text.js';

/**
 * Statements as one report. One alone stands for itself; several begin with what is to be paid in all. A sheet that could
 * not be used comes before all of it.
 *
 * @param general - findings that belong to no statement
 */
export function layStatements(
  statements: readonly LocationStatement[],
  general: readonly Finding[],
  style: Style,
): string[] {
  const { unused, others } = splitUnusedSheets(general);
  return [
    ...joinParts([
      ...(unused.length === 0 ? [] : [layFindings(unused, style)]),
      ...(statements.length === 1 ? [] : [hangText('', summarize(statements)).map(style.bold)]),
      ...statements.map((statement) => layStatement(statement, style)),
      ...(others.length === 0 ? [] : [layFindings(others, style)]),
    ]),
    ...layCautions([...cautionsOf(general), ...(statements.length === 0 ? [] : (['accounts'] as const))], style),
  ];
}

function summarize(statements: readonly LocationStatement[]): string {
  if (statements.length === 0) return 'No statement: the machine sheet states no commission and no tax rate.';
  const agreed = statements.filter(isAgreed);
  const open = agreed.filter(({ commission }) => commission === null).length;
  const sums = groupByMoney(agreed).map(sumWords);
  const parts = [...sums, ...(open === 0 ? [] : [`not known for ${open}`])];
  const commission = parts.length === 0 ? 'no commission stated' : `commission ${parts.join(', ')}`;
  return `${plural(statements.length, 'statement')}: ${commission}.`;
}

const isAgreed = ({ lines }: LocationStatement): boolean => lines.some(({ machine }) => machine.commission !== null);

/** Statements with a commission, by their money: nothing is added across currencies. */
function groupByMoney(statements: readonly LocationStatement[]): LocationStatement[][] {
  const groups = new Map<string, LocationStatement[]>();
  for (const statement of statements) {
    const key = JSON.stringify([statement.currency, statement.decimals]);
    const own = groups.get(key);
    if (own === undefined) groups.set(key, [statement]);
    else own.push(statement);
  }
  return [...groups.values()].filter((group) => group.some(({ commission }) => commission !== null));
}

function sumWords(group: readonly LocationStatement[]): string {
  const known = group.filter(({ commission }) => commission !== null);
  const sum = addAll(known.map(({ commission }) => commission!.amount));
  const { decimals, currency } = known[0]!;
  if (sum === null) return 'beyond what can be added';
  const least = known.some(({ floors }) => floors.commission) ? 'at least ' : '';
  return `${least}${describeMoney(sum, decimals, currency)}`;
}
