import type { ElementDef } from '../dictionary/index.js';
import { subtract } from '../model/index.js';
import { type Profile, rollOverModulus } from '../profile/index.js';
import { type Basis, type Difference, findRollOver, type UnknownWhy } from './difference.js';
import type { ResetJudgement } from './resets.js';
import type { RestartCounters } from './restart.js';

/** A lifetime counter and the interval counter of the same thing, at one end of a pair; null where it is absent. */
export interface End {
  readonly lifetime: number | null;
  readonly interval: number | null;
  /** Whether this read shows that its machine leaves out the segment of these counters where they are zero. */
  readonly isLeftOutAtZero: boolean;
  /** What its absence says where the columns beside it have it; null when that says nothing. */
  readonly absenceStandsFor: 'never' | 'not-since-reset' | null;
}

/** Which counters are asked for. */
export interface Counters {
  readonly lifetime: ElementDef;
  readonly interval: ElementDef | null;
  /** The column, for counters of a product group. */
  readonly column: string | null;
  /** Whether the thing counted did not exist at the earlier read, or no longer exists at the later one. */
  readonly isNew: boolean;
  readonly isGone: boolean;
}

/** What is known of the pair of reads as a whole. */
export interface PairKnowledge {
  readonly reset: ResetJudgement;
  /** Null when the counters did not start again. */
  readonly restart: RestartCounters | null;
  /** For the digits after which counters roll over. */
  readonly profile: Profile | null;
  /** Whether a counter that went down may have rolled over, the others being fine. */
  readonly mayRollOver: boolean;
  /** Whether the machine keeps lifetime counters at all: if not, one that stays at 0 says nothing. */
  readonly keepsLifetime: boolean;
}

/**
 * What a counter moved by: by its lifetime counter; where that is absent or stays at 0, by its interval counter as far as
 * it is known who cleared that when; after a restart, what it shows since then.
 */
export function subtractCounters(counters: Counters, from: End, to: End, known: PairKnowledge): Difference {
  const task: Task = { counters, from, to, known };
  if (known.restart === 'not-known') return restartNotClear(task);
  if (known.restart === 'from-zero') return sinceRestart(task);
  if (isAbsent(from) && isAbsent(to)) return absentTwice(task);
  const hasLifetime = from.lifetime !== null || to.lifetime !== null;
  const staysZero = (from.lifetime ?? 0) === 0 && (to.lifetime ?? 0) === 0;
  const movesOtherwise = (from.interval ?? 0) !== 0 || (to.interval ?? 0) !== 0;
  if (!hasLifetime || (staysZero && movesOtherwise && to.interval !== null)) return byInterval(task);
  // On a machine of which no lifetime counter ever moved, a 0 is as good as that of the interval counter.
  const isShown = !staysZero || known.keepsLifetime || exactByInterval(task) !== null || to.interval === null;
  return isShown ? byLifetime(task) : byInterval(task);
}

interface Task {
  readonly counters: Counters;
  readonly from: End;
  readonly to: End;
  readonly known: PairKnowledge;
}

const isAbsent = ({ lifetime, interval }: End): boolean => lifetime === null && interval === null;

/**
 * In neither read: nothing is known, unless the columns beside it show what absence means on this machine. Where somebody
 * may have cleared a counter that has no lifetime, its absence does not even say that nothing moved.
 */
function absentTwice(task: Task): Difference {
  const { known, to } = task;
  if (to.absenceStandsFor === 'never') return make(task, 'lifetime', 0);
  if (to.absenceStandsFor === 'not-since-reset') return byInterval(task);
  return { ...unknown(task, 'lifetime', 'absent'), floor: !known.keepsLifetime && !known.reset.isCertain };
}

function byLifetime(task: Task): Difference {
  const { counters, from, to, known } = task;
  const before = from.lifetime;
  const after = to.lifetime;
  if (after === null) return lifetimeGone(task);
  if (before === null) return lifetimeCome(task, after);
  const difference = subtract(after, before);
  if (difference !== null && difference >= 0) return make(task, 'lifetime', difference);
  const stated = rollOverModulus(known.profile, counters.lifetime.name);
  const modulus = known.mayRollOver ? findRollOver(before, after, stated) : null;
  if (modulus === null) return unknown(task, 'lifetime', 'backward');
  return { ...make(task, 'lifetime', after + modulus - before), element: counters.lifetime, modulus };
}

/** Present, then absent. */
function lifetimeGone(task: Task): Difference {
  const { counters, from, to } = task;
  if (from.lifetime === 0 && to.isLeftOutAtZero && !counters.isGone) return make(task, 'lifetime', 0);
  return (to.interval === null ? null : exactByInterval(task)) ?? unknown(task, 'lifetime', 'absent-now');
}

/**
 * Absent, then present. What did not exist started at 0, unless its interval counter shows less than that on a machine
 * that was cleared at the earlier read or before, for then it had counted before. Else it stood at 0 if the machine leaves
 * zero segments out elsewhere in that read, or if all it ever counted came since the last reset.
 */
function lifetimeCome(task: Task, after: number): Difference {
  const { counters, from, to, known } = task;
  const { state } = known.reset;
  const isOlder = to.interval !== null && to.interval < after && (state === 'cleared' || state === 'kept');
  const wasZero = counters.isNew ? !isOlder : from.isLeftOutAtZero || to.interval === after;
  if (wasZero) return make(task, 'lifetime', after);
  return exactByInterval(task) ?? unknown(task, 'lifetime', 'absent-before');
}

/** Where a lifetime counter is absent at one end the interval counter stands in, if it covers the time between exactly. */
function exactByInterval(task: Task): Difference | null {
  const fallback = byInterval(task);
  return fallback.value === null || fallback.floor ? null : fallback;
}

/** The fallback. A figure from counters that somebody else may have cleared in between is the least it can have been. */
function byInterval(task: Task): Difference {
  const { counters, from, to, known } = task;
  const { state, isCertain } = known.reset;
  const wasNothing = counters.isNew || from.isLeftOutAtZero;
  const now = to.interval ?? (to.isLeftOutAtZero && !counters.isGone ? 0 : null);
  if (now === null) return unknown(task, 'interval', from.interval === null ? 'absent' : 'absent-now');
  const before = from.interval ?? (wasNothing && !isOlderThanReset(task) ? 0 : null);
  const since = (mayBeMore: boolean): Difference => {
    const difference = make(task, 'interval', now);
    return { ...difference, floor: mayBeMore || difference.floor, from: null, to: now };
  };
  if (state === 'cleared') return since(!isCertain);
  if (state === 'unseen') return since(true);
  if (before === null) return unknown(task, 'interval', state === 'kept' ? 'absent-before' : 'reset-not-known');
  // It stood at 0, so it does not matter whether it was cleared; lower than before, it was, by whomever.
  if (before === 0) return since(!isCertain);
  if (now < before) return since(true);
  if (state === 'not-known') return unknown(task, 'interval', 'reset-not-known');
  const difference = make(task, 'interval', now - before);
  return { ...difference, floor: !isCertain || difference.floor };
}

/** A column that only the later read has, yet counted before the last reset: it did not start at 0 in between. */
function isOlderThanReset({ counters, to }: Task): boolean {
  return counters.isNew && to.lifetime !== null && to.interval !== null && to.interval < to.lifetime;
}

/** What the later read shows may have been counted elsewhere: it tells nothing of this interval. */
function restartNotClear(task: Task): Difference {
  const isNone = isAbsent(task.from) && isAbsent(task.to);
  return { ...unknown(task, 'restart', isNone ? 'absent' : 'absent-before'), from: null };
}

/** After a restart the later value itself is what is known; the part between the last read and the restart is lost. */
function sinceRestart(task: Task): Difference {
  const { counters, from, to } = task;
  if (isCarriedOver(from, to)) return { ...make(task, 'restart', to.lifetime! - from.lifetime!), floor: true };
  const usesInterval = (to.lifetime ?? 0) === 0 && to.interval !== null && counters.interval !== null;
  const isZero = to.absenceStandsFor !== null || (to.isLeftOutAtZero && !counters.isGone);
  const value = (usesInterval ? to.interval : to.lifetime) ?? (isZero ? 0 : null);
  if (value === null) return { ...unknown(task, 'restart', isAbsent(from) ? 'absent' : 'absent-now'), floor: true };
  const element = usesInterval ? counters.interval! : counters.lifetime;
  return { ...make(task, 'restart', value), element, floor: true, from: null, to: value };
}

/** How far a counter that a restart passed by may have come on, for its size; and below which size it tells nothing. */
const LARGEST_STEP = 0.1;
const SMALLEST_SIZE = 1000;

/**
 * Whether a counter kept its value through a restart of the others, as one that a device keeps by itself: it went on by
 * little for its size, and its interval counter shows the same step. Its whole value was not counted since the restart.
 */
function isCarriedOver(from: End, to: End): boolean {
  const step = subtract(to.lifetime, from.lifetime);
  const size = from.lifetime ?? 0;
  if (step === null || step < 0 || size < SMALLEST_SIZE || step > size * LARGEST_STEP) return false;
  return to.interval !== null && (to.interval === step || to.interval === (from.interval ?? 0) + step);
}

/** A figure that is known. Nothing is sold, or put in, less than not at all: a counter below 0 tells nothing. */
function make(task: Task, basis: Basis, value: number): Difference {
  if (value < 0) return unknown(task, basis, 'backward');
  const { counters, from, to, known } = task;
  const end = basis === 'interval' ? 'interval' : 'lifetime';
  return {
    element: basis === 'interval' ? (counters.interval ?? counters.lifetime) : counters.lifetime,
    column: counters.column,
    value,
    basis,
    // Counters that go on although the board or its memory are said to be new: nothing shows that none was lost.
    floor: known.restart === 'go-on',
    why: null,
    modulus: null,
    from: from[end],
    to: to[end],
  };
}

function unknown(task: Task, basis: Basis, why: UnknownWhy): Difference {
  return { ...make(task, basis, 0), value: null, floor: false, why };
}
