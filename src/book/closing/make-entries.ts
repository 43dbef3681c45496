import { type SettlementJson, settlementToJson } from '../../report/index.js';
import type { CarriedJson, ChangesJson } from '../../report/shapes/closing.js';
import type { SettleOptions } from '../../settlement/index.js';
import { hashLeaf } from '../merkle/index.js';
import { type BookStore, canonicalJson, type Entry, type EntryToRecord, writeLeafText } from '../store/index.js';
import { type Closing, keyOfSettlement, subjectOfSettlement } from './closings.js';
import type { OpenDraft } from './draft-day.js';
import { toBody } from './read-body.js';
import type { AdjustmentBody, ClosingBody, SettledHow, SettledOffice, Standing } from './shapes.js';
import { listRefused, type RoundRequest, type WorkedRound } from './work-out-round.js';

/** Entries that are recorded together with what rests on them, and the number the first will have. */
export interface Batch {
  readonly size: number;
  readonly entries: readonly EntryToRecord[];
}

/** The entries that visits rest on, each with its leaf hash: of those about to be recorded too. */
export async function listRestsOn(
  store: BookStore,
  visits: readonly Standing[],
  batch: Batch,
): Promise<ClosingBody['restsOn']> {
  const numbers = new Set(visits.flatMap(({ captures, counts }) => [...captures, ...counts]));
  const restsOn: ClosingBody['restsOn'] = [];
  for (const entry of [...numbers].sort((a, b) => a - b)) {
    const planned = batch.entries[entry - batch.size];
    const found = planned === undefined ? await store.entry(entry) : asRecorded(planned, entry);
    if (found !== null) restsOn.push({ entry, leaf: Buffer.from(hashLeaf(writeLeafText(found))).toString('hex') });
  }
  return restsOn;
}

function asRecorded(entry: EntryToRecord, seq: number): Entry {
  const { kind, recordedAt, subject = null, day = null, key = null, refersTo = null, body } = entry;
  return { seq, kind, recordedAt, subject, day, key, refersTo, body: canonicalJson(body) };
}

/** The entry that closes a settlement. */
export function makeClosingEntry(
  { settlement, round }: OpenDraft,
  parts: Pick<ClosingBody, 'by' | 'bookSize' | 'visits' | 'restsOn'> & { readonly carried: readonly CarriedJson[] },
  request: RoundRequest,
  recordedAt: string,
): EntryToRecord {
  const json: SettlementJson = settlementToJson(settlement);
  const body: ClosingBody = {
    settlement: json,
    ...parts,
    carried: [...parts.carried],
    how: howOf(request),
    office: officeOf(request, round, settlement.route),
  };
  return {
    kind: 'settlement-closed',
    recordedAt,
    subject: subjectOfSettlement(json),
    day: json.day,
    key: keyOfSettlement(json),
    body: toBody(body),
  };
}

/** The entry of what came after a closing. Its key lets there be one first, one second ... of a settlement. */
export function makeAdjustmentEntry(
  { entry, adjustments, body: closed, subject }: Closing,
  changes: ChangesJson,
  parts: Omit<AdjustmentBody, 'changes'>,
  recordedAt: string,
): EntryToRecord {
  const body: AdjustmentBody = { changes, ...parts };
  return {
    kind: 'adjustment',
    recordedAt,
    subject,
    day: closed.settlement.day,
    key: `adjustment ${adjustments.length + 1} of ${entry}`,
    refersTo: entry,
    body: toBody(body),
  };
}

const NO_TOLERANCE: NonNullable<SettleOptions['tolerance']> = { amount: 0, basisPoints: 0 };

function howOf({ settle = {}, defaults, clockToleranceMinutes, isFileTimeReceived }: RoundRequest): SettledHow {
  return {
    tolerance: settle.tolerance ?? NO_TOLERANCE,
    windowMinutes: settle.windowMinutes ?? null,
    ignoreHandMoves: settle.ignoreHandMoves ?? false,
    currency: defaults?.currency ?? null,
    decimals: defaults?.decimals ?? null,
    clockToleranceMinutes: clockToleranceMinutes ?? null,
    isFileTimeReceived: isFileTimeReceived ?? false,
  };
}

/** What the office said of the machines of a route that were looked at. */
export function officeOf(
  { roster, sheet = null }: RoundRequest,
  round: WorkedRound,
  route: string | null,
): SettledOffice {
  const visited = new Set(round.visits.filter((visit) => visit.route === route).map(({ machine }) => machine));
  const machines = [...round.reads.keys()]
    .map((name) => roster.machine(name))
    .filter((row) => row !== null && (row.route === route || visited.has(row.machine)));
  const refused = listRefused(sheet).map(({ code, severity, message, machine, file, row }) => ({
    code,
    severity,
    message,
    ...(machine === undefined ? {} : { machine }),
    ...(file === undefined ? {} : { file }),
    ...(row === undefined ? {} : { row }),
  }));
  return {
    machines: machines as SettledOffice['machines'],
    profiles: [...round.profiles],
    capturesList: [...round.listed],
    refused,
  };
}
