import * as z from 'zod';
import { findOneSided, type OneSided, type SettledBags } from '../../attention/index.js';
import { getOrAdd, type LocalDate, type Minor, moveDate } from '../../model/index.js';
import { isSettled, type Settlement, type Visit } from '../../settlement/index.js';
import type { BookStore } from '../store/index.js';
import { readBody } from './read-body.js';

/** How far is looked back, in days. */
const DAYS_BACK = 180;

/** Of closings and adjustments only what is asked for is looked at: there may be thousands of them. */
const bagSchema = z.object({
  machine: z.string(),
  driver: z.string().nullable(),
  state: z.string(),
  overShort: z.object({ total: z.int().nullable() }),
});
const standingsSchema = z.object({ visits: z.array(bagSchema).optional() });
const closingSchema = standingsSchema.extend({
  settlement: z.object({ day: z.string(), currency: z.string().nullable(), decimals: z.int().nullable() }),
});

type Money = Pick<Settlement, 'currency' | 'decimals'>;
type Bag = z.infer<typeof bagSchema>;

/**
 * Machines and drivers with a bag in the day's rounds whose bags, looked back on, always differ in one direction: rounds closed
 * before as they stand by what is recorded, the day's own as they are given.
 *
 * @throws BookError (as a rejection) `corrupted` when an entry does not say what it must
 */
export async function lookBack(
  store: BookStore,
  day: LocalDate,
  settlements: readonly Settlement[],
): Promise<OneSided[]> {
  const own = settlements.flatMap(({ visits, ...money }) =>
    visits.filter(isSettled).map((visit) => ({ visit, money })),
  );
  if (own.length === 0) return [];
  const gathered = new GatheredBags();
  await addClosed(store, gathered, { dayFrom: moveDate(day, -DAYS_BACK), dayTo: moveDate(day, -1) });
  for (const { visit, money } of own) gathered.add(toBag(visit), money, { day, isNew: true });
  return findOneSided(gathered.all());
}

const toBag = ({ machine, driver, state, overShort }: Visit): Bag => ({ machine, driver, state, overShort });

async function addClosed(
  store: BookStore,
  gathered: GatheredBags,
  days: { readonly dayFrom: LocalDate; readonly dayTo: LocalDate },
): Promise<void> {
  const closings = new Map<number, z.infer<typeof closingSchema>>();
  for await (const entry of store.entries({ ...days, kinds: ['settlement-closed'] }))
    closings.set(entry.seq, readBody(closingSchema, entry));
  const [first] = closings.keys();
  if (first === undefined) return;
  const standing = new Map([...closings].map(([seq, { visits = [] }]) => [seq, visits]));
  for await (const entry of store.entries({ from: first, kinds: ['adjustment'] })) {
    const { visits } = readBody(standingsSchema, entry);
    if (visits !== undefined && standing.has(entry.refersTo!)) standing.set(entry.refersTo!, visits);
  }
  for (const [seq, { settlement }] of [...closings].sort(([, a], [, b]) =>
    a.settlement.day < b.settlement.day ? -1 : 1,
  ))
    for (const bag of standing.get(seq)!) gathered.add(bag, settlement, { day: settlement.day, isNew: false });
}

interface Gathering {
  readonly bags: { readonly day: LocalDate; readonly overShort: Minor }[];
  isNew: boolean;
}

/** Settled bags by machine, by driver, and by money. */
class GatheredBags {
  readonly #by = new Map<string, Gathering>();

  add(
    { machine, driver, overShort: { total } }: Bag,
    { currency, decimals }: Money,
    { day, isNew }: { day: LocalDate; isNew: boolean },
  ): void {
    if (total === null) return;
    for (const [of, name] of [
      ['machine', machine],
      ['driver', driver],
    ] as const) {
      if (name === null) continue;
      const own = getOrAdd(this.#by, JSON.stringify([of, name, currency, decimals]), () => ({
        bags: [],
        isNew: false,
      }));
      own.bags.push({ day, overShort: total });
      own.isNew ||= isNew;
    }
  }

  all(): SettledBags[] {
    return [...this.#by].map(([key, { bags, isNew }]) => {
      const [of, name, currency, decimals] = JSON.parse(key) as [
        SettledBags['of'],
        string,
        string | null,
        number | null,
      ];
      return { of, name, currency, decimals, bags, isNew };
    });
  }
}
