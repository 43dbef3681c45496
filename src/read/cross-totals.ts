import { ELEMENT, type ElementDef, type ElementName, SEGMENT, type Span } from '../dictionary/index.js';
import type { Place } from '../findings/index.js';
import { type Profile, rollOverModulus } from '../profile/index.js';
import { COLUMN_STRIDE } from './line-index.js';
import { locate, type Read } from './read.js';

/** Which sum is held against which total; number and value apart. */
export type CrossTotalId =
  | 'column-count'
  | 'column-value'
  | 'device-count'
  | 'device-value'
  | 'list-count'
  | 'list-value'
  | 'test-count'
  | 'test-value'
  | 'free-count'
  | 'free-value'
  | 'tube-value';

/** A total of one read and the sum of what it should be made of: they are equal unless something is or was off. */
export interface CrossTotal {
  readonly id: CrossTotalId;
  readonly span: Span;
  /** The column it is about, for sums over price lists; else null. */
  readonly column: string | null;
  /** Whether `total` and `parts` are minor units or pieces. */
  readonly unit: 'money' | 'count';
  /** What is compared, in plain words, fit to follow "the". */
  readonly what: string;
  /** What the parts are, in plain words, fit to follow "the sum of". */
  readonly partsWhat: string;
  readonly totalElement: ElementName;
  readonly partElements: readonly ElementName[];
  readonly total: number;
  readonly parts: number;
  /** 10^k when the two differ by exactly that: a counter ran past its last digit once. Else null. */
  readonly rollOver: number | null;
  readonly totalPlace: Place;
}

/** How one cross total is named. */
interface TotalKind {
  readonly id: CrossTotalId;
  readonly span: Span;
  readonly unit: 'money' | 'count';
  readonly what: string;
  readonly partsWhat: string;
  readonly total: ElementDef;
  readonly parts: readonly ElementDef[];
}

type Sink = (kind: TotalKind, total: number, parts: number, line: number, column: number) => void;

const SPAN_WORDS = { init: 'since initialisation', reset: 'since the last reset', level: 'now' } as const;

function defineTotals(
  family: 'column' | 'device' | 'list' | 'test' | 'free',
  what: string,
  partsWhat: string,
  rows: readonly (readonly ['count' | 'value', 'init' | 'reset', ElementName, ...ElementName[]])[],
): TotalKind[] {
  return rows.map(([measure, span, total, ...parts]) => ({
    id: `${family}-${measure}` as const,
    span,
    unit: measure === 'count' ? 'count' : 'money',
    what: `${measure === 'count' ? 'number' : 'value'} of ${what} ${SPAN_WORDS[span]}`,
    partsWhat,
    total: ELEMENT[total],
    parts: parts.map((name) => ELEMENT[name]),
  }));
}

const COLUMN_TOTALS = defineTotals('column', 'all paid vends', 'its columns', [
  ['count', 'init', 'VA102', 'PA201'],
  ['value', 'init', 'VA101', 'PA202'],
  ['count', 'reset', 'VA104', 'PA203'],
  ['value', 'reset', 'VA103', 'PA204'],
]);
const DEVICE_TOTALS = defineTotals('device', 'all paid vends', 'cash, cashless and token sales', [
  ['value', 'init', 'VA101', 'CA201', 'DA201', 'DB201', 'TA201'],
  ['count', 'init', 'VA102', 'CA202', 'DA202', 'DB202', 'TA202'],
  ['value', 'reset', 'VA103', 'CA203', 'DA203', 'DB203', 'TA203'],
  ['count', 'reset', 'VA104', 'CA204', 'DA204', 'DB204', 'TA204'],
]);
const LIST_TOTALS = defineTotals('list', "the column's paid vends", 'its payment devices and price lists', [
  ['count', 'init', 'PA201', 'PA705'],
  ['value', 'init', 'PA202', 'PA706'],
  ['count', 'reset', 'PA203', 'PA707'],
  ['value', 'reset', 'PA204', 'PA708'],
]);
const UNPAID_TOTALS = (
  [
    ['test', 'VA2', 'PA3'],
    ['free', 'VA3', 'PA4'],
  ] as const
).map(([family, all, column]) => ({
  all: SEGMENT[all].index,
  slot: SEGMENT[column].index - SEGMENT.PA1.index,
  kinds: defineTotals(family, `all ${family} vends`, 'its columns', [
    ['count', 'init', `${all}02`, `${column}01`],
    ['value', 'init', `${all}01`, `${column}02`],
    ['count', 'reset', `${all}04`, `${column}03`],
    ['value', 'reset', `${all}03`, `${column}04`],
  ]),
}));
const TUBE_TOTAL: TotalKind = {
  id: 'tube-value',
  span: 'level',
  unit: 'money',
  what: 'value of the tube contents now',
  partsWhat: 'the coins in each tube',
  total: ELEMENT.CA1501,
  parts: [ELEMENT.CA1703, ELEMENT.CA1702],
};

const VA1 = SEGMENT.VA1.index;
const CA3 = SEGMENT.CA3.index;
const CA15 = SEGMENT.CA15.index;
const isProduct = (kind: number): boolean => kind >= SEGMENT.PA1.index && kind <= SEGMENT.PA7.index;
const PA2_SLOT = SEGMENT.PA2.index - SEGMENT.PA1.index;

/**
 * Every cross total of a read that can be judged, equal or not: Σ PA2 = VA1, Σ PA3 = VA2, Σ PA4 = VA3, VA1 = CA2 + DA2 + DB2 +
 * TA2, Σ PA7 = PA2 for each column, Σ CA17 coins × value = CA15.
 *
 * A segment that is absent altogether adds nothing, since zero segments may be left out (manual L0118P-SP, p. 62). An
 * element absent or malformed inside a segment that is there makes the total unknown, and so does a read that was cut
 * short or has products out of their place: then it is left out.
 *
 * @param profile - says which price lists are free or test vends, and so no part of paid ones; without it all are paid
 */
export function computeCrossTotals(read: Read, profile: Profile | null): CrossTotal[] {
  return collect(read, profile, () => true, true);
}

/** Those of {@link computeCrossTotals} where total and parts differ: nothing is made for those that are equal. */
export function findCrossTotalDifferences(read: Read, profile: Profile | null): CrossTotal[] {
  const { index } = read;
  // Almost no read has any in its price lists, and then there is no need to sum them up again.
  const mayListsDiffer = index.paid.mayListsDiffer || hasUnpaidLists(profile);
  return collect(read, profile, (total, parts) => total !== parts, mayListsDiffer);
}

function collect(
  read: Read,
  profile: Profile | null,
  isWanted: (total: number, parts: number) => boolean,
  withLists: boolean,
): CrossTotal[] {
  const found: CrossTotal[] = [];
  if (!read.isComplete) return found;
  const sink: Sink = (kind, total, parts, line, column) => {
    if (!isWanted(total, parts)) return;
    found.push({
      id: kind.id,
      span: kind.span,
      column: column < 0 ? null : read.columns[column]!.id,
      unit: kind.unit,
      what: kind.what,
      partsWhat: kind.partsWhat,
      totalElement: kind.total.name,
      partElements: kind.parts.map((part) => part.name),
      total,
      parts,
      rollOver: findRollOver(kind, total, parts, profile),
      totalPlace: locate(read, line, kind.total.position),
    });
  };
  if (!read.index.misplaced.some(({ line }) => isProduct(read.block.kind(line)))) {
    sumColumns(read, sink);
    sumUnpaid(read, sink);
    if (withLists) sumLists(read, profile, sink);
  }
  sumDevices(read, sink);
  sumTubes(read, sink);
  return found;
}

/**
 * At the widths that are usual (domain rule: k = 4…9), or that a profile gives for one of the counters. A total that lacks
 * 10^k rolled over itself, and then stands below 10^k: one that is larger has another fault, such as a changed digit.
 */
function findRollOver(kind: TotalKind, total: number, parts: number, profile: Profile | null): number | null {
  const difference = Math.abs(total - parts);
  if (total < parts && total >= difference) return null;
  for (let modulus = 10 ** 4; modulus <= 10 ** 9; modulus *= 10) if (difference === modulus) return modulus;
  const counters = [kind.total, ...kind.parts];
  return counters.some(({ name }) => rollOverModulus(profile, name) === difference) ? difference : null;
}

/** Σ PA2 = VA1. */
function sumColumns(read: Read, sink: Sink): void {
  const { block, index } = read;
  const line = index.single[VA1]!;
  if (line < 0 || index.paid.lineCount === 0) return;
  for (const kind of COLUMN_TOTALS) {
    const total = block.number(line, kind.total.position);
    if (total === null) continue;
    const parts = index.paid.totals[kind.parts[0]!.position - 1]!;
    if (Number.isSafeInteger(parts)) sink(kind, total, parts, line, -1);
  }
}

/** Σ PA3 = VA2 and Σ PA4 = VA3: goods leave by test and free vends too. */
function sumUnpaid(read: Read, sink: Sink): void {
  const { block, index } = read;
  for (const { all, slot, kinds } of UNPAID_TOTALS) {
    const line = index.single[all]!;
    const lines = line < 0 ? [] : linesOf(read, slot);
    if (line < 0) continue;
    for (const kind of kinds) {
      const total = block.number(line, kind.total.position);
      // Many machines count such vends in all alone; where there never was one in all, there was none of any column.
      if (total === null || (lines.length === 0 && (total !== 0 || kind.span !== 'init'))) continue;
      let parts = 0;
      for (const part of lines) parts += block.number(part, kind.parts[0]!.position) ?? Number.NaN;
      if (Number.isSafeInteger(parts)) sink(kind, total, parts, line, -1);
    }
  }
}

/** The lines of one kind of all columns that have it. */
function linesOf({ index }: Read, slot: number): number[] {
  const lines: number[] = [];
  for (let at = slot; at < index.columns.length; at += COLUMN_STRIDE) {
    if (index.columns[at]! >= 0) lines.push(index.columns[at]!);
  }
  return lines;
}

/** VA1 = CA2 + DA2 + DB2 + TA2. */
function sumDevices(read: Read, sink: Sink): void {
  const { block, index } = read;
  const line = index.single[VA1]!;
  if (line < 0) return;
  for (const kind of DEVICE_TOTALS) {
    const total = block.number(line, kind.total.position);
    if (total === null) continue;
    let parts = 0;
    let isThere = false;
    for (const { segment, segmentIndex, position } of kind.parts) {
      const part = index.single[segmentIndex]!;
      if (part >= 0) {
        isThere = true;
        parts += block.number(part, position) ?? Number.NaN;
      } else if (segment === 'CA2' && index.single[CA3]! >= 0) {
        // Cash came in, but how much of it were sales is not said.
        parts = Number.NaN;
      }
    }
    if (isThere && Number.isSafeInteger(parts)) sink(kind, total, parts, line, -1);
  }
}

/** Σ PA7 over payment devices and paid price lists = PA2, for each column. */
function sumLists(read: Read, profile: Profile | null, sink: Sink): void {
  const { block, index } = read;
  const lists = profile?.priceLists;
  if (index.payments.length === 0) return;
  for (let column = 0; column * COLUMN_STRIDE < index.columns.length; column++) {
    const line = index.columns[column * COLUMN_STRIDE + PA2_SLOT]!;
    const lines = line < 0 ? [] : read.paymentLines(column);
    if (lines.length === 0) continue;
    const paid = lists === undefined ? lines : lines.filter((at) => isPaidList(lists, block.text(at, 3) ?? ''));
    for (const kind of LIST_TOTALS) {
      const total = block.number(line, kind.total.position);
      if (total === null) continue;
      let parts = 0;
      for (const part of paid) parts += block.number(part, kind.parts[0]!.position) ?? Number.NaN;
      if (Number.isSafeInteger(parts)) sink(kind, total, parts, line, column);
    }
  }
}

const hasUnpaidLists = (profile: Profile | null): boolean => {
  const lists = profile?.priceLists;
  return lists !== undefined && Object.keys(lists).some((list) => !isPaidList(lists, list));
};

function isPaidList(lists: NonNullable<Profile['priceLists']>, list: string): boolean {
  const meaning = Object.hasOwn(lists, list) ? lists[list] : undefined;
  return meaning !== 'free' && meaning !== 'test';
}

/** Σ CA17 coins × value = CA15. */
function sumTubes(read: Read, sink: Sink): void {
  const { block, index } = read;
  const line = index.single[CA15]!;
  const tubes = read.lines('CA17');
  if (line < 0 || tubes.length === 0) return;
  const total = block.number(line, 1);
  let parts = 0;
  for (const tube of tubes) parts += (block.number(tube, 2) ?? Number.NaN) * (block.number(tube, 3) ?? Number.NaN);
  if (total !== null && Number.isSafeInteger(parts)) sink(TUBE_TOTAL, total, parts, line, -1);
}
