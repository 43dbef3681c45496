import type { PlacedRead, Step, TakenRead } from '../interval/index.js';
import { add, type Count, type LocalDate, type LocalDateTime, minutesBetween } from '../model/index.js';

/** A column that holds nothing, and how that is known. */
export interface SoldOut {
  /** `machine`: it says so itself (PA5). `counters`: as much was vended since the fill as par is. */
  readonly by: 'machine' | 'counters';
  /** By the machine's own clock, where the machine says it; a date alone where it gives no time. */
  readonly at: LocalDateTime | LocalDate | null;
  /** How long it was sold out at the last read, in minutes; null where it is not known. */
  readonly minutes: number | null;
}

/** What is known of a column besides its own figures. */
export interface SoldOutEvidence {
  readonly fill: PlacedRead | null;
  readonly until: TakenRead;
  readonly pieces: readonly (Step | null)[];
  readonly unreadVisitAt: LocalDateTime | null;
}

/** The figures of a column that matter here. */
export interface VendedColumn {
  readonly column: string;
  readonly par: Count | null;
  readonly sold: Count | null;
  readonly test: Count | null;
  readonly free: Count | null;
  readonly left: Count | null;
  readonly doubts: readonly string[];
}

/**
 * Whether a column is sold out at the last read. The machine says so where its sold-out date and time (PA5) lie after the
 * last fill by its own clock and no vend came after; else the counters say so where exactly par was vended since a fill
 * that is beyond doubt. More than par shows that it was filled in between.
 */
export function judgeSoldOut(column: VendedColumn, evidence: SoldOutEvidence): SoldOut | null {
  return byMachine(column, evidence) ?? byCounters(column);
}

function byMachine({ column }: VendedColumn, evidence: SoldOutEvidence): SoldOut | null {
  const { fill, until, pieces, unreadVisitAt } = evidence;
  const said = until.read.column(column)!.soldOutAt;
  const now = until.read.clock;
  if (said === null || now === null) return null;
  // Without a time of day only the days before and after are certain, so the start of the day is what it is after.
  const since = `${said.date}T${said.time ?? '00:00:00'}`;
  const filledAt = latest(fill?.read.clock ?? null, unreadVisitAt);
  if (since > now || (filledAt !== null && since <= filledAt)) return null;
  const vendedLater = pieces.some((piece) => {
    const start = piece?.from.read.clock ?? null;
    return start !== null && start >= since && vendsOf(piece!, column) !== 0;
  });
  if (vendedLater) return null;
  return said.time === null
    ? { by: 'machine', at: said.date, minutes: null }
    : { by: 'machine', at: since, minutes: minutesBetween(since, now) };
}

/** Not known counts as vended: then nothing shows that the column is still empty. */
function vendsOf({ columns }: Step, column: string): Count | null {
  const sales = columns.find((one) => one.column === column);
  return sales === undefined ? null : add(sales.sold, sales.test ?? 0, sales.free ?? 0);
}

function byCounters({ par, sold, test, free, left, doubts }: VendedColumn): SoldOut | null {
  const vended = add(sold, test, free);
  const isEmpty = par !== null && par > 0 && left === 0 && vended !== null && vended > 0;
  return isEmpty && doubts.length === 0 ? { by: 'counters', at: null, minutes: null } : null;
}

function latest(a: LocalDateTime | null, b: LocalDateTime | null): LocalDateTime | null {
  if (a === null || b === null) return a ?? b;
  return a > b ? a : b;
}
