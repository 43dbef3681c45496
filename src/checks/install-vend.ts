import { ELEMENT, type ElementName } from '../dictionary/index.js';
import { adviseAtCabinet, printable } from '../findings/index.js';
import type { Column, Read } from '../read/index.js';
import type { InstallCapture, InstallItem, InstallOptions } from './install-item.js';
import { findResetBetween } from './reset-between.js';
import { countOf, listSome } from './wording.js';

/** A column whose lifetime counter of paid, test or free vends differs between the two captures. */
interface Move {
  readonly column: string;
  readonly kind: 'paid' | 'test' | 'free';
  readonly by: number;
}

const COUNTERS: readonly (readonly [Move['kind'], ElementName, ElementName])[] = [
  ['paid', 'PA201', 'PA203'],
  ['test', 'PA301', 'PA303'],
  ['free', 'PA401', 'PA403'],
];
const TRY_AGAIN = adviseAtCabinet('Make one vend, then read the machine again.');

/** What a second capture shows after one vend: that just this vend was counted, and whether the counters were cleared. */
export function checkVend(first: InstallCapture, second: InstallCapture, options: InstallOptions): InstallItem[] {
  const item = { id: 'vend-counted', what: 'just the one vend was counted' } as const;
  const stranger = isOtherMachine(first.read, second.read);
  if (stranger) {
    const detail = 'the second capture is of another machine';
    return [{ ...item, state: 'missing', detail, advice: 'Take both captures at the same machine.' }];
  }
  return [
    { ...item, ...judgeMoves(first.read, second.read, options.column ?? null) },
    checkReset(first, second, options),
  ];
}

function isOtherMachine(a: Read, b: Read): boolean {
  const { asset, serial } = a.machine;
  const isAsset = asset !== null && b.machine.asset !== null;
  return isAsset ? asset !== b.machine.asset : serial !== b.machine.serial;
}

function judgeMoves(
  first: Read,
  second: Read,
  column: string | null,
): Pick<InstallItem, 'state' | 'detail' | 'advice' | 'cautions'> {
  const moves = findMoves(first, second);
  if (moves === null) return { state: 'not-known', detail: 'the columns give no lifetime counters', advice: null };
  const said = moves.map(describeMove);
  const [only] = moves;
  if (only === undefined) return { state: 'missing', detail: 'no counter moved', ...TRY_AGAIN };
  if (moves.length > 1 || only.by !== 1) {
    return { state: 'missing', detail: `more than one vend was counted: ${listSome(said)}`, ...TRY_AGAIN };
  }
  if (column !== null && only.column !== column) {
    const detail = `not column ${printable(column, 20)} but ${said[0]} was counted`;
    return {
      state: 'missing',
      detail,
      ...adviseAtCabinet('Look whether the columns are set up and connected as they are labelled.'),
    };
  }
  if (only.kind === 'free')
    return { state: 'missing', detail: `${said[0]}: a free vend, neither paid nor test`, ...TRY_AGAIN };
  return { state: 'pass', detail: said[0]!, advice: null };
}

const describeMove = ({ column, kind, by }: Move): string =>
  by < 0
    ? `column ${printable(column, 20)} went back by ${-by} (${kind})`
    : `column ${printable(column, 20)} by ${countOf(by, `${kind} vend`)}`;

/** Every counter that moved; null when no lifetime counter counts. */
function findMoves(first: Read, second: Read): Move[] | null {
  const moves: Move[] = [];
  let isCounting = false;
  for (const column of second.columns) {
    const before = first.column(column.id);
    for (const [kind, life, interval] of COUNTERS) {
      const now = column.number(life);
      const then = before === null ? null : countBefore(before, life, now, column.number(interval));
      if (now === null || then === null) continue;
      if (now !== 0) isCounting = true;
      if (now !== then) moves.push({ column: column.id, kind, by: now - then });
    }
  }
  return isCounting ? moves : null;
}

/**
 * What a counter stood at before. Where its segment was left out it stood at 0, if everything it counts came since the
 * last reset (domain rule for a counter that was absent and is present).
 */
function countBefore(before: Column, life: ElementName, now: number | null, interval: number | null): number | null {
  const then = before.number(life);
  if (then !== null || before.line(ELEMENT[life].segmentIndex) >= 0) return then;
  return now === interval ? 0 : null;
}

/** Whether the first capture cleared the counters, which a service read should where the machine clears at all. */
function checkReset({ read, context }: InstallCapture, second: InstallCapture, options: InstallOptions): InstallItem {
  const item = { id: 'reset', what: 'the first read cleared the counters since the last reset' } as const;
  const resets = context.profile?.resets;
  const isService = options.isService ?? null;
  const between = findResetBetween(read, second.read);
  const detail = RESET_WORDS[between];
  if (between === 'unseen') return { ...item, state: 'missing', detail, advice: FIND_OTHER };
  if (between === 'not-known') return { ...item, state: 'not-known', detail, advice: null };
  const isDue = resets === 'every-read' || (isService === true && resets !== 'never');
  const isUndue = resets === 'never' || (isService === false && resets === 'service-read');
  if (!isDue && !isUndue)
    return { ...item, state: 'not-known', detail: `${detail}; nothing says whether it should`, advice: null };
  const isRight = isDue === (between === 'cleared');
  return { ...item, state: isRight ? 'pass' : 'missing', detail, ...(isRight ? { advice: null } : SET_MODE) };
}

const RESET_WORDS = {
  cleared: 'they were cleared',
  'not-cleared': 'they were not cleared',
  unseen: 'something else cleared them in between',
  'not-known': 'they do not tell: nothing was counted before, or they contradict each other',
} as const;
const FIND_OTHER = 'Find out what else reads this machine with reset, such as a second reader.';
const SET_MODE = adviseAtCabinet("Look at the machine's data reset mode.");
