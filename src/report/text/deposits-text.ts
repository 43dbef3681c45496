import type { DepositMatch, DepositMatches, DepositState, DepositTotals } from '../../accounts/index.js';
import { cautionsOf, type Finding } from '../../findings/index.js';
import { describeMoney } from '../../model/index.js';
import { layCautions } from './cautions-text.js';
import { layFindings } from './findings-text.js';
import type { Style } from './style.js';
import { layTable, type TableColumn } from './text-table.js';
import { splitUnusedSheets } from './unused-sheets.js';
import { amountCell, NOT_KNOWN, plural, signedCell, unitWords } from './words.js';
import { hangText, joinParts } from './wrap-text.js';

const STATES: readonly DepositState[] = ['differing', 'missing', 'extra', 'unclear', 'matched', 'open'];

const DEPOSITS: readonly TableColumn[] = [
  { head: 'machine', mayCut: true },
  { head: 'sold until' },
  { head: 'by card', align: 'right' },
  { head: 'deposit' },
  { head: 'gross', align: 'right' },
  { head: 'difference', align: 'right' },
  { head: 'state' },
];

/**
 * Card sales against deposits for a person: the answer first, then each comparison, sums, and what to look at. A sheet that
 * could not be used comes before all of it.
 *
 * @param compared - null where deposits or captures could not be read, so that nothing can be said of them
 * @param general - findings that belong to no comparison
 */
export function layDeposits(compared: DepositMatches | null, general: readonly Finding[], style: Style): string[] {
  const { matches, totals } = compared ?? { matches: [], totals: [] };
  const findings = matches.flatMap((match) => match.findings);
  const { unused, others } = splitUnusedSheets(general);
  const answer =
    compared === null ? 'Nothing was compared: there are no deposits or no captures to read.' : headline(matches);
  return [
    ...joinParts([
      ...(unused.length === 0 ? [] : [layFindings(unused, style)]),
      hangText('', answer).map(style.bold),
      ...totals.map((each) => layMoney(each, matches, style)),
      ...[findings, others].filter((some) => some.length > 0).map((some) => layFindings(some, style)),
    ]),
    // What deposits that do not fit come to is for the accountant to say.
    ...layCautions([...cautionsOf(general), ...(findings.length === 0 ? [] : (['accounts'] as const))], style),
  ];
}

function headline(matches: readonly DepositMatch[]): string {
  const states = STATES.map((state) => [state, matches.filter((match) => match.state === state).length] as const)
    .filter(([, count]) => count > 0)
    .map(([state, count]) => `${count} ${state}`);
  return states.length === 0 ? 'No card sales and no deposits to compare.' : `Card deposits: ${states.join(', ')}.`;
}

function layMoney(totals: DepositTotals, matches: readonly DepositMatch[], style: Style): string[] {
  const own = matches.filter(({ currency, decimals }) => currency === totals.currency && decimals === totals.decimals);
  return [
    style.dim(`  amounts in ${unitWords(totals)}`),
    ...layTable(DEPOSITS, own.map(depositCells), style, { indent: '  ' }),
    '',
    ...hangText('  ', feeWords(totals)),
  ];
}

function depositCells(match: DepositMatch): string[] {
  const { machine, device, to, sales, salesIsFloor, deposits, gross, difference, isAtLeast, state } = match;
  const dates = [...new Set(deposits.map(({ date }) => date))];
  const more = deposits.length > 1 ? ` x${deposits.length}` : '';
  return [
    machine ?? device ?? deposits[0]?.device ?? NOT_KNOWN,
    to === null ? NOT_KNOWN : to.slice(0, 10),
    sales === null ? NOT_KNOWN : `${salesIsFloor ? '>= ' : ''}${amountCell(sales, match)}`,
    dates.length === 0 ? NOT_KNOWN : dates.at(-1)! + more,
    amountCell(gross, match),
    difference === null ? NOT_KNOWN : `${isAtLeast ? 'at least ' : ''}${signedCell(difference, match)}`,
    state,
  ];
}

function feeWords(totals: DepositTotals): string {
  const { deposits, gross, fee, fees, net, withoutFees, currency, decimals } = totals;
  if (deposits === 0) return 'No deposits.';
  const money = (amount: number | null): string =>
    amount === null ? 'not known' : describeMoney(amount, decimals, currency);
  const sum = `${plural(deposits, 'deposit')}, gross ${money(gross)}`;
  if (fees === null) return `${sum}; fees not known.`;
  const of = withoutFees === 0 ? '' : ` of ${money(fee?.gross ?? null)}`;
  const rate = fee === null ? '' : ` (${fee.percent} %${of})`;
  const left = withoutFees === 0 ? '' : `; ${plural(withoutFees, 'deposit')} left out of fees and net`;
  return `${sum}; fees ${money(fees)}${rate}, net ${money(net)}${left}.`;
}
