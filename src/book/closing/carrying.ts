import { type LocalDate, pushAll } from '../../model/index.js';
import type { AdjustmentJson, CarriedJson } from '../../report/shapes/closing.js';
import type { BookStore, Entry, EntryToRecord } from '../store/index.js';
import {
  type Adjustment,
  type Closing,
  closingOf,
  isOneMoney,
  keyOfSettlement,
  type SettlementMoney,
  type SettlementName,
} from './closings.js';
import { readBody, toBody } from './read-body.js';
import { readAdjustmentBody, readClosingBody } from './read-closing.js';
import { type AdjustmentBody, adjustmentPartsSchema, type CarriedBody, carriedBodySchema } from './shapes.js';

/** A driver's part of an adjustment that no closing has taken over. */
export interface OpenPart extends SettlementMoney {
  readonly adjustment: number;
  readonly settlement: number;
  readonly route: string | null;
  readonly day: LocalDate;
  readonly driver: string | null;
  readonly overShort: number;
}

/** A closing that may take parts over. */
export interface TakingOver {
  readonly name: SettlementName;
  /** Everybody who has a visit in it. */
  readonly drivers: ReadonlySet<string | null>;
}

/** A part that a closing took over, and who answers for it. */
export type CarriedPart = CarriedJson & { readonly driver: string | null };

/** Every part of an adjustment that no closing has taken over, oldest first. */
export async function listOpenParts(store: BookStore, days: { readonly dayTo?: LocalDate } = {}): Promise<OpenPart[]> {
  const parts: OpenPart[] = [];
  for await (const entry of store.entries({ ...days, kinds: ['adjustment'] }))
    pushAll(parts, await openPartsOf(store, entry));
  return parts;
}

async function openPartsOf(store: BookStore, entry: Entry): Promise<OpenPart[]> {
  const now = adjustmentPartsSchema.safeParse(JSON.parse(entry.body));
  const { of, byDriver } = now.success ? now.data : await readOldParts(store, entry);
  const carried = await listCarriedTo(store, { entry: entry.seq, isOld: !now.success, subject: entry.subject });
  return byDriver
    .filter(({ driver }) => !carried.has(driver))
    .map((part) => ({ ...of, ...part, adjustment: entry.seq }));
}

async function readOldParts(store: BookStore, entry: Entry): Promise<Pick<AdjustmentBody, 'of' | 'byDriver'>> {
  const { body } = (await closingOf(store, entry.refersTo!))!;
  const { route, day, currency, decimals, totals } = body.settlement;
  const { byDriver } = readAdjustmentBody(entry, { body, totals });
  return { of: { settlement: entry.refersTo!, route, day, currency, decimals }, byDriver };
}

/** Which closings took over the parts of an adjustment, by driver. */
async function listCarriedTo(
  store: BookStore,
  { entry, isOld, subject }: { readonly entry: number; readonly isOld: boolean; readonly subject: string | null },
): Promise<Map<string | null, CarriedBody['to']>> {
  const found = new Map<string | null, CarriedBody['to']>();
  for await (const each of store.entries({ refersTo: entry, kinds: ['adjustment-carried'] })) {
    const { driver, to } = readBody(carriedBodySchema, each);
    found.set(driver, to);
  }
  if (!isOld || found.size > 0) return found;
  const to = await findOldCarrier(store, entry, subject);
  return to === null ? found : new Map([[null, to]]);
}

/** Once every closing of a route took over all that was open of it: the first after an adjustment says whether it did. */
async function findOldCarrier(
  store: BookStore,
  seq: number,
  subject: string | null,
): Promise<CarriedBody['to'] | null> {
  for await (const entry of store.entries({ kinds: ['settlement-closed'], subject: subject ?? '', from: seq + 1 })) {
    const { body, carried } = readClosingBody(entry);
    if (!carried?.some((each) => each.entry === seq)) return null;
    const { route, day } = body.settlement;
    return { settlement: entry.seq, route, day };
  }
  return null;
}

/** An adjustment as programs get it. */
export async function adjustmentToJson(
  store: BookStore,
  adjustment: Adjustment,
  { subject }: Pick<Closing, 'subject'>,
): Promise<AdjustmentJson> {
  const { entry, recordedAt, body } = adjustment;
  const { by, because, overShort, changes, byDriver } = body;
  const carried = await listCarriedTo(store, { entry, isOld: body.isOld, subject });
  return {
    entry,
    at: recordedAt,
    by,
    because,
    overShort,
    changes,
    byDriver: byDriver.map((part) => {
      const to = carried.get(part.driver);
      return {
        ...part,
        carriedTo: to === undefined ? null : { entry: to.settlement, route: to.route, day: to.day },
      };
    }),
  };
}

/** What a closing took over. */
export async function listCarriedInto(
  store: BookStore,
  { body, carried }: Pick<Closing, 'body' | 'carried'>,
): Promise<CarriedPart[]> {
  const parts: CarriedPart[] = [];
  for (const { entry, settlement, day, overShort } of carried ?? []) {
    const from = await closingOf(store, settlement);
    parts.push({ entry, route: from?.body.settlement.route ?? null, day, overShort, driver: null });
  }
  const subject = keyOfSettlement(body.settlement);
  for await (const entry of store.entries({ kinds: ['adjustment-carried'], subject })) {
    const { driver, overShort, from } = readBody(carriedBodySchema, entry);
    parts.push({ entry: from.adjustment, route: from.route, day: from.day, overShort, driver });
  }
  return parts;
}

/**
 * Which of the closings that are made at once takes over a part: one in which its driver has a visit, of several that of the
 * same route. What is the route's own goes to that route alone. Null where none does: it stays open.
 */
export function findTaker<Taker extends TakingOver>(part: OpenPart, closings: readonly Taker[]): Taker | null {
  const same = closings.filter(({ name }) => isOneMoney(name, part));
  const ofRoute = same.find(({ name }) => name.route === part.route);
  if (part.driver === null) return ofRoute ?? null;
  const own = same.filter(({ drivers }) => drivers.has(part.driver));
  return own.find((closing) => closing === ofRoute) ?? own[0] ?? null;
}

/** The entry by which a closing takes a part over. Its key lets a part be taken over once. */
export function makeCarriedEntry(
  { adjustment, settlement, route, day, driver, overShort }: OpenPart,
  to: { readonly name: SettlementName; readonly entry: number },
  recordedAt: string,
): EntryToRecord {
  const body: CarriedBody = {
    driver,
    overShort,
    from: { adjustment, settlement, route, day },
    to: { settlement: to.entry, route: to.name.route, day: to.name.day },
  };
  return {
    kind: 'adjustment-carried',
    recordedAt,
    subject: keyOfSettlement(to.name),
    day: to.name.day,
    key: `carried ${adjustment} ${JSON.stringify(driver)}`,
    refersTo: adjustment,
    body: toBody(body),
  };
}
