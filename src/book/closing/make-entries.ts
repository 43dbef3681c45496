import { settlementToJson } from '../../report/index.js';
import type { Settlement, SettleOptions } from '../../settlement/index.js';
import { hashLeaf } from '../merkle/index.js';
import { type BookStore, type EntryToRecord, writeLeafText } from '../store/index.js';
import { type Closing, keyOfSettlement, subjectOfSettlement } from './closings.js';
import { toBody } from './read-body.js';
import { toRecorded } from './recorded-settlement.js';
import type { AdjustmentBody, ClosingBody, SettledHow, SettledOffice, Standing } from './shapes.js';
import type { RoundRequest, WorkedRound } from './work-out-round.js';

/** The entries that visits rest on, each with its leaf hash: of those about to be recorded too. */
export async function listRestsOn(store: BookStore, visits: readonly Standing[]): Promise<ClosingBody['restsOn']> {
  const numbers = new Set(visits.flatMap(({ captures, counts }) => [...captures, ...counts]));
  const restsOn: ClosingBody['restsOn'] = [];
  for (const entry of [...numbers].sort((a, b) => a - b)) {
    const found = await store.entry(entry);
    if (found !== null) restsOn.push({ entry, leaf: Buffer.from(hashLeaf(writeLeafText(found))).toString('hex') });
  }
  return restsOn;
}

/** The entry that closes a settlement. */
export function makeClosingEntry(
  settlement: Settlement,
  parts: Omit<ClosingBody, 'settlement'>,
  recordedAt: string,
): EntryToRecord {
  const recorded = toRecorded(settlementToJson(settlement));
  const body: ClosingBody = { settlement: recorded, ...parts };
  return {
    kind: 'settlement-closed',
    recordedAt,
    subject: subjectOfSettlement(recorded),
    day: recorded.day,
    key: keyOfSettlement(recorded),
    body: toBody(body),
  };
}

/** The entry of what came after a closing. Its key lets there be one first, one second ... of a settlement. */
export function makeAdjustmentEntry(
  { entry, adjustments, body: closed, subject }: Closing,
  parts: Omit<AdjustmentBody, 'of'>,
  recordedAt: string,
): EntryToRecord {
  const { route, day, currency, decimals } = closed.settlement;
  const body: AdjustmentBody = { of: { settlement: entry, route, day, currency, decimals }, ...parts };
  return {
    kind: 'adjustment',
    recordedAt,
    subject,
    day,
    key: `adjustment ${adjustments.length + 1} of ${entry}`,
    refersTo: entry,
    body: toBody(body),
  };
}

const NO_TOLERANCE: NonNullable<SettleOptions['tolerance']> = { amount: 0, basisPoints: 0 };

/** How a round is settled as a closing keeps it. */
export function howOf({ settle = {}, defaults, clockToleranceMinutes, isFileTimeReceived }: RoundRequest): SettledHow {
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
export function officeOf({ roster }: RoundRequest, round: WorkedRound, route: string | null): SettledOffice {
  const visited = new Set(round.visits.filter((visit) => visit.route === route).map(({ machine }) => machine));
  const machines = [...round.reads.keys()]
    .map((name) => roster.machine(name))
    .filter((row) => row !== null && (row.route === route || visited.has(row.machine)));
  return {
    machines: machines as SettledOffice['machines'],
    profiles: [...round.profiles],
    capturesList: [...round.listed],
    refused: [],
  };
}
