import * as z from 'zod';
import type { LocalDate } from '../../model/index.js';
import { becauseShape, type ChangeJson } from '../../report/shapes/closing.js';
import { coinsAndBillsShape, dateOrTimeShape, overShortShape } from '../../report/shapes/figures.js';
import { BookError, type Entry } from '../store/index.js';
import type { RecordedTotals } from './recorded-settlement.js';
import {
  type AdjustmentBody,
  adjustmentBodySchema,
  type ClosingBody,
  closingBodySchema,
  type Standing,
  standingSchema,
} from './shapes.js';
import { compareTotals, sumStandings } from './standing.js';

/** What a closing took over, where its own entry says so. */
export interface OldCarried {
  readonly entry: number;
  readonly settlement: number;
  readonly day: LocalDate;
  readonly overShort: number;
}

/** A closing as its entry says it, whenever that was recorded. */
export interface ReadClosing {
  readonly body: ClosingBody;
  /** Null where entries of their own say what was taken over. */
  readonly carried: readonly OldCarried[] | null;
}

/** An adjustment as its entry says it. Of an old one no more of the sums is known than money. */
export interface ReadAdjustment extends Omit<AdjustmentBody, 'of' | 'totals' | 'drivers'> {
  readonly totals: Partial<RecordedTotals>;
  readonly drivers: AdjustmentBody['drivers'] | null;
  readonly isOld: boolean;
}

// Entries of the first version: drivers were not kept with visits, what a closing took over stood in its own entry, and an
// adjustment had the sums of its changes by kind.
const oldStandingSchema = standingSchema.omit({ driver: true });
const sums = { expected: coinsAndBillsShape, counted: coinsAndBillsShape, overShort: overShortShape };
const oldClosingSchema = closingBodySchema.omit({ anyway: true, visits: true }).extend({
  visits: z.array(oldStandingSchema),
  carried: z.array(z.object({ entry: z.int(), settlement: z.int(), day: z.string(), overShort: overShortShape })),
});
const oldAdjustmentSchema = adjustmentBodySchema
  .pick({ by: true, bookSize: true, office: true, restsOn: true })
  .extend({
    visits: z.array(oldStandingSchema),
    changes: z.object({
      ...sums,
      visits: z.array(
        z.object({
          machine: z.string(),
          visitedAt: dateOrTimeShape,
          bag: z.string().nullable(),
          field: z.enum([
            'state',
            'expected.coins',
            'expected.bills',
            'counted.coins',
            'counted.bills',
            'overShort.coins',
            'overShort.bills',
            'overShort.total',
          ]),
          from: z.union([z.int(), z.string()]).nullable(),
          to: z.union([z.int(), z.string()]).nullable(),
        }),
      ),
      because: z.array(becauseShape),
    }),
  });

/** @throws BookError `corrupted` when the entry does not say what a closing must say */
export function readClosingBody(entry: Entry): ReadClosing {
  const json: unknown = JSON.parse(entry.body);
  const now = closingBodySchema.safeParse(json);
  if (now.success) return { body: now.data, carried: null };
  const old = oldClosingSchema.safeParse(json);
  if (!old.success) throw notSaid(entry);
  const { carried, visits, ...rest } = old.data;
  const { settlement } = rest;
  const body: ClosingBody = {
    ...rest,
    anyway: null,
    // They were made of the settlement's visits, one of each.
    visits: visits.map((visit, place) => ({ ...visit, driver: settlement.visits[place]?.driver ?? null })),
  };
  return {
    body,
    carried: carried.map(({ overShort, ...each }) => ({ ...each, overShort: overShort.total ?? 0 })),
  };
}

/**
 * @param before - the closing, as it stood before
 * @throws BookError `corrupted` when the entry does not say what an adjustment must say
 */
export function readAdjustmentBody(
  entry: Entry,
  before: { readonly body: ClosingBody; readonly totals: Partial<RecordedTotals> },
): ReadAdjustment {
  const json: unknown = JSON.parse(entry.body);
  const now = adjustmentBodySchema.safeParse(json);
  if (now.success) return { ...now.data, isOld: false };
  const old = oldAdjustmentSchema.safeParse(json);
  if (!old.success) throw notSaid(entry);
  const { changes, visits, ...rest } = old.data;
  const driverOf = findDrivers(before.body);
  const standings = visits.map((visit) => ({ ...visit, driver: driverOf(visit) }));
  const totals: Sums = sumStandings(standings);
  const lines = compareTotals(before.totals, { ...NOTHING_KNOWN, ...before.totals, ...totals });
  return {
    ...rest,
    because: changes.because,
    overShort: changes.overShort.total ?? 0,
    changes: [...changes.visits.map((change): ChangeJson => ({ ...change, driver: driverOf(change) })), ...lines],
    // Nobody said then who answers for it.
    byDriver: [{ driver: null, overShort: changes.overShort.total ?? 0 }],
    totals,
    drivers: null,
    visits: standings,
    isOld: true,
  };
}

/** Who answered for a visit of a closing; else whoever the roster named for its machine. */
function findDrivers({ visits, office }: ClosingBody) {
  return ({ machine, visitedAt, bag }: Pick<Standing, 'machine' | 'visitedAt' | 'bag'>): string | null => {
    const own = visits.filter((visit) => visit.machine === machine);
    const same = own.find((visit) => visit.visitedAt === visitedAt && visit.bag === bag) ?? own[0];
    return same?.driver ?? office.machines.find((row) => row.machine === machine)?.driver ?? null;
  };
}

const NOTHING_KNOWN: RecordedTotals = {
  expected: { coins: null, bills: null },
  counted: { coins: null, bills: null },
  overShort: { coins: null, bills: null, total: null },
  cardSales: null,
  sold: null,
  value: null,
  loss: null,
  settledVisits: 0,
  openVisits: 0,
  countedOpen: { coins: null, bills: null },
};

type Sums = Pick<RecordedTotals, 'expected' | 'counted' | 'overShort'>;

function notSaid({ seq, kind }: Entry): BookError {
  return new BookError('corrupted', `Entry ${seq} does not say what a ${kind} must say. Verify the book.`);
}
