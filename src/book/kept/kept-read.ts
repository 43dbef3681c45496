import type { CheckCircumstances, ReadSummary, ToldOfFile } from '../../checks/index.js';
import { DEVICES, isDoubtOfFigures, resolveRead } from '../../checks/index.js';
import type { SegmentId } from '../../dictionary/index.js';
import type { Finding } from '../../findings/index.js';
import type { PlacedRead } from '../../interval/index.js';
import type { LocalDateTime } from '../../model/index.js';
import type { Read } from '../../read/index.js';
import type { BookRead, JsonObject, JsonValue } from '../store/index.js';
import { digestOffice, sealRead } from './rests-on.js';

/** What is kept of a read besides what the book's tables have of it. */
interface PackedFacts {
  readonly model: string | null;
  readonly isLastOfFile: boolean;
  readonly appendedAt: LocalDateTime | null;
  /** Currency and decimals as the read itself says them. */
  readonly money: readonly [string | null, number | null];
  readonly segments: readonly [stated: number | null, counted: number];
  readonly integrity: readonly [ReadSummary['integrity']['state'], string | null, string | null];
  readonly complete: boolean;
  readonly columns: number;
  readonly devices: readonly SegmentId[];
  /** CA302 and CA304. */
  readonly meters: readonly [number | null, number | null];
  /** Signal, and the machine that a list named. */
  readonly told: readonly [number | null, string | null];
  readonly findings: readonly Finding[];
  /** What was found on its file as a whole: with the first read of a file; else null. */
  readonly ofFile: readonly Finding[] | null;
}

/** As a list in this order, since it stands beside every read. */
const PACKED = [
  'model',
  'isLastOfFile',
  'appendedAt',
  'money',
  'segments',
  'integrity',
  'complete',
  'columns',
  'devices',
  'meters',
  'told',
  'findings',
  'ofFile',
] as const satisfies readonly (keyof PackedFacts)[];

/** A read as it is kept: placed, with what its check found. */
export interface KeptRead {
  readonly placed: PlacedRead;
  readonly summary: ReadSummary;
  /** What checks found of it; and of its file as a whole, null where that is not kept with this read. */
  readonly findings: readonly Finding[];
  readonly ofFile: readonly Finding[] | null;
  /** See {@link sealRead}. */
  readonly seal: Uint8Array;
}

const DEVICE_SEGMENTS: readonly SegmentId[] = DEVICES.flatMap(({ oneOf }) => oneOf);

/**
 * What is to be kept of a read that was checked.
 *
 * @param ofFile - what was found on its file as a whole, with the first read of the file; null where it is not known yet
 */
export function packRead(
  read: Read,
  summary: ReadSummary,
  told: Pick<ToldOfFile, 'signal' | 'machine'>,
  findings: readonly Finding[],
  ofFile: readonly Finding[] | null,
): JsonValue {
  const { state, stated, computed } = read.integrity;
  const packed: PackedFacts = {
    model: read.machine.model,
    isLastOfFile: read.isLastOfFile,
    appendedAt: read.appendedAt,
    money: [read.currency, read.decimals],
    segments: [read.segments.stated, read.segments.counted],
    integrity: [state, stated, computed],
    complete: summary.complete,
    columns: summary.columns,
    devices: DEVICE_SEGMENTS.filter((segment) => read.has(segment)),
    meters: [read.integer('CA302'), read.integer('CA304')],
    told: [told.signal, told.machine],
    findings: findings.map(withoutFile),
    ofFile: ofFile === null ? null : ofFile.map(withoutFile),
  };
  return PACKED.map((key) => packed[key]) as unknown as JsonValue;
}

function withoutFile({ file: _, ...finding }: Finding): Finding {
  return finding;
}

/** What is kept of a read with its facts; null where an earlier version of the program recorded it. */
export function unpackFacts({ facts }: Pick<BookRead, 'facts'>): PackedFacts | null {
  const kept = (facts as { readonly kept?: readonly unknown[] } | null)?.kept;
  if (kept === undefined) return null;
  return Object.fromEntries(PACKED.map((key, place) => [key, kept[place]])) as unknown as PackedFacts;
}

/**
 * The facts of a read of which a list tells something else now. All that was checked by what was told before is worked out
 * anew; this keeps what it is worked out from.
 */
export function retellFacts({ facts }: Pick<BookRead, 'facts'>, told: ToldOfFile): JsonObject {
  const { filled: _, kept, ...others } = (facts ?? {}) as JsonObject & { readonly kept?: readonly JsonValue[] };
  const { filled, signal, machine } = told;
  const now = kept?.map((value, place) => (PACKED[place] === 'told' ? [signal, machine] : value));
  return { ...others, ...(filled === null ? {} : { filled }), ...(now === undefined ? {} : { kept: now }) };
}

/** A read of the book as far as it can be told without its contents. */
export function placeRead(
  file: string,
  row: BookRead,
  packed: PackedFacts,
  circumstances: CheckCircumstances,
): Omit<KeptRead, 'findings' | 'ofFile'> {
  const read = outline(row, packed);
  const resolved = resolveRead(file, read, circumstances);
  const { machine, profile, receivedAt, reason, bag, filled } = resolved;
  const { currency, decimals } = row;
  const named = (findings: readonly Finding[]): Finding[] => findings.map((finding) => ({ file, ...finding }));
  const faults = named(packed.findings.filter(({ severity }) => severity === 'fault'));
  const doubts = named([...packed.findings, ...ofFileAlone(row, packed)].filter(isDoubtOfFigures));
  const [stated, counted] = packed.segments;
  const [state, ofFile, computed] = packed.integrity;
  const office = digestOffice(circumstances.roster, machine, circumstances);
  return {
    placed: { file, read, machine, profile, currency, decimals, receivedAt, reason, bag, filled, faults, doubts },
    summary: {
      machine: { ...read.machine, name: machine?.machine ?? null, location: machine?.location ?? null },
      clock: row.clock,
      appendedAt: packed.appendedAt,
      receivedAt,
      currency,
      decimals,
      segments: { stated, counted },
      integrity: { state, stated: ofFile, computed },
      complete: packed.complete,
      columns: packed.columns,
    },
    seal: sealRead(office, resolved, row, row),
  };
}

/** What was found on the file of a read that is all that is in it. */
function ofFileAlone({ number }: BookRead, { isLastOfFile, ofFile }: PackedFacts): readonly Finding[] {
  return number === 0 && isLastOfFile ? (ofFile ?? []) : [];
}

/**
 * A read of the book without its contents.
 *
 * @returns null where nothing is kept of it, or what is kept does not fit what it rests on: then its contents tell
 */
export function takeUpRead(file: string, row: BookRead, circumstances: CheckCircumstances): KeptRead | null {
  const packed = unpackFacts(row);
  if (packed === null || row.rests === null) return null;
  const placed = placeRead(file, row, packed, circumstances);
  if (Buffer.compare(placed.seal, row.rests) !== 0) return null;
  const named = (findings: readonly Finding[]): Finding[] => findings.map((finding) => ({ file, ...finding }));
  const { findings, ofFile } = packed;
  return { ...placed, findings: named(findings), ofFile: ofFile === null ? null : named(ofFile) };
}

function outline({ number, clock, asset, serial, board }: BookRead, packed: PackedFacts) {
  const [currency, decimals] = packed.money;
  const [box, bills] = packed.meters;
  return {
    number,
    clock,
    isLastOfFile: packed.isLastOfFile,
    appendedAt: packed.appendedAt,
    currency,
    decimals,
    machine: { asset, serial, board, model: packed.model },
    has: (segment: SegmentId): boolean => packed.devices.includes(segment),
    integer: (element: 'CA302' | 'CA304'): number | null => (element === 'CA302' ? box : bills),
  };
}
