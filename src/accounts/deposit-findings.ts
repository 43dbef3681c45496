import { type Finding, type FindingCode, type FindingDetail, makeFinding, printable } from '../findings/index.js';
import { describeMoney, type Minor } from '../model/index.js';
import type { DepositMatch, DepositReason, DepositState } from './deposit-match.js';

/** A match before anything is said of it. */
export type UntoldMatch = Omit<DepositMatch, 'findings'>;

const ASK =
  "Ask the processor for its list of payments of these days: refunds and fees are not in a machine's counters.";

const CODES: Readonly<Record<Exclude<DepositState, 'matched' | 'open'>, FindingCode>> = {
  differing: 'deposit-differs',
  missing: 'deposit-missing',
  extra: 'deposit-extra',
  unclear: 'deposit-unclear',
};

/** What a person should know about a match: nothing where it fits or is not due. */
export function judgeMatch(match: UntoldMatch): Finding[] {
  const { state, reason } = match;
  if (state === 'open') return [];
  if (state === 'matched') return sayMatched(match);
  const code = reason === 'other-currency' ? 'mixed-currency' : CODES[state];
  const advice = ADVICE[reason ?? state] ?? null;
  const message = `${subjectOf(match)}: ${tell(match)}`;
  return [makeFinding(code, message, { ...placeOf(match), ...(advice === null ? {} : { advice }) })];
}

const ADVICE: Readonly<Partial<Record<DepositReason | DepositState, string>>> = {
  differing: ASK,
  edges: ASK,
  extra: 'Check the machine or device of the row; ask the processor what it is for.',
  missing: 'Ask the processor for the deposit, and check that the card device reports to it.',
  'unknown-machine': 'Check how the sheet writes the name of the machine.',
  'unknown-device': 'Check the serial number against the device, and whether its machine has been read.',
  'two-machines': 'Name the machine in the row of the deposit.',
  'equally-good': 'Give the days that each deposit is for (period_from, period_to).',
  'taken-back': ASK,
};

function sayMatched(match: UntoldMatch): Finding[] {
  const { reason } = match;
  const say = (code: FindingCode, text: string): Finding[] => [
    makeFinding(code, `${subjectOf(match)}: ${text}`, { ...placeOf(match), severity: 'note' }),
  ];
  const fits = `${money(match, match.gross!)} deposited is what was sold by card${daysOf(match)}`;
  switch (reason) {
    case 'in-total':
      return say('deposit-unclear', `${fits}, as a whole; which deposit pays for which days the amounts do not tell.`);
    case 'sales-floor':
      return say('sales-floor', `${fits}, though the counters show no more than the least that was sold.`);
    case 'cash-as-card':
      return say(
        'cash-as-card',
        `${fits}, as far as that is known: the card counters of this machine hold cash sales too, or may.`,
      );
    default:
      return [];
  }
}

/** What is the matter, to follow the machine's name. */
function tell(match: UntoldMatch): string {
  const { state, reason } = match;
  const said = reason === null ? undefined : REASONS[reason]?.(match);
  if (said !== undefined) return said;
  if (state === 'missing') {
    const least = match.salesIsFloor ? 'at least ' : '';
    return `${least}${money(match, match.sales!)} sold by card${daysOf(match)}, and no deposit for it.`;
  }
  if (state === 'extra') {
    return `${money(match, match.gross!)} deposited${paidOn(match)}, and nothing sold by card that it could be for.`;
  }
  const { difference, isAtLeast } = match;
  const amount = `${isAtLeast ? 'at least ' : ''}${money(match, Math.abs(difference!))}`;
  const edges = isAtLeast ? ' Reads and deposits do not begin and end together, so that it may be more.' : '';
  return `${against(match)}: ${amount} ${difference! < 0 ? 'too little' : 'too much'}.${edges}`;
}

/** The reasons that make a sentence of their own. */
const REASONS: Readonly<Partial<Record<DepositReason, (match: UntoldMatch) => string | undefined>>> = {
  edges: (match) =>
    match.state === 'unclear'
      ? `${against(match)}. Reads and deposits do not begin and end together, which can explain it.`
      : undefined,
  'sales-floor': (match) =>
    match.state === 'unclear'
      ? `${against(match)}. The counters show no more than the least that was sold, which can explain it.`
      : undefined,
  'cash-as-card': (match) =>
    `card sales${daysOf(match)} cannot be told from cash sales that its card counters hold too, or may${depositedToo(match)}.`,
  'sales-not-known': (match) => `what was sold by card${daysOf(match)} is not known${depositedToo(match)}.`,
  'no-time': (match) =>
    match.sales === null
      ? 'card sales that are not known, between reads without a time.'
      : `${money(match, match.sales)} sold by card between reads without a time: no deposit can be put against it.`,
  'equally-good': (match) =>
    `${against(match)}. More than one way to put them together is equally good; none was chosen.`,
  'unknown-machine': (match) =>
    `${money(match, match.gross!)} deposited${paidOn(match)} for a machine that neither the reads nor the roster know.`,
  'unknown-device': (match) =>
    `${money(match, match.gross!)} deposited${paidOn(match)} for a card device that no read shows.`,
  'two-machines': (match) =>
    match.deposits[0]!.device === null
      ? `${money(match, match.gross!)} deposited${paidOn(match)} under a number that several machines have.`
      : `${money(match, match.gross!)} deposited${paidOn(match)} for a card device that the reads show in another machine, or in several.`,
  'other-currency': (match) =>
    `${money(match, match.gross!)} deposited${paidOn(match)}, which is not the money that the machine counts in.`,
  'taken-back': (match) =>
    `${money(match, match.gross!)} on ${match.deposits[0]!.date}: the processor took money back, of which a machine's counters know nothing.`,
};

function subjectOf({ machine, device, deposits }: UntoldMatch): string {
  if (machine !== null) return `Machine ${printable(machine)}`;
  const serial = device ?? deposits[0]?.device ?? null;
  return serial === null ? 'A machine without a name' : `Device ${printable(serial)}`;
}

/** What stands against each other, or what stands alone. */
function against(match: UntoldMatch): string {
  const { sales, salesIsFloor, intervals, gross } = match;
  const sold =
    sales === null
      ? `card sales${daysOf(match)} that are not known`
      : `${salesIsFloor ? 'at least ' : ''}${money(match, sales)} sold by card${daysOf(match)}`;
  if (gross === null) return `${sold}, and no deposit of their own`;
  const paid = `${money(match, gross)} deposited${paidOn(match)}`;
  return intervals.length === 0 ? `${paid}, and no sales of its own` : `${sold}, ${paid}`;
}

function depositedToo(match: UntoldMatch): string {
  return match.gross === null ? '' : `; ${money(match, match.gross)} was deposited${paidOn(match)}`;
}

function daysOf({ from, to }: UntoldMatch): string {
  return from === null || to === null ? '' : ` from ${from.slice(0, 10)} to ${to.slice(0, 10)}`;
}

function paidOn({ deposits }: UntoldMatch): string {
  const dates = [...new Set(deposits.map(({ date }) => date))].sort();
  return dates.length === 1 ? ` on ${dates[0]}` : ` from ${dates[0]} to ${dates.at(-1)}`;
}

function money({ decimals, currency }: UntoldMatch, amount: Minor): string {
  return describeMoney(amount, decimals, currency);
}

function placeOf({ machine, deposits, intervals }: UntoldMatch): FindingDetail {
  const named = machine === null ? {} : { machine };
  const [deposit, ...others] = deposits;
  if (deposit === undefined) return { ...named, file: intervals.at(-1)!.to.file };
  const related = others.map(({ place: { file, row } }) => ({ file, row }));
  const { file, row } = deposit.place;
  return { ...named, file, row, ...(related.length === 0 ? {} : { related }) };
}
