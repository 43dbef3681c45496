import { type MachineStock, measureStock, type StockEvidence } from '../../src/attention/index.js';
import { gatherHistories, type TakenRead } from '../../src/interval/index.js';
import type { CaptureListRow, PlanRow } from '../../src/model/index.js';
import type { Visit } from '../../src/settlement/index.js';
import { Roster } from '../../src/sheets/index.js';
import { type TakenOptions, takeSegments } from '../support/taken.js';

/** What is known besides the reads. */
export interface Known {
  readonly roster?: Roster;
  readonly visits?: readonly Visit[];
  readonly faulty?: readonly TakenRead[];
}

/** Reads of one machine as the stock is measured from them. */
export function evidenceOf(
  reads: readonly TakenRead[],
  { roster = new Roster(), visits = [], faulty = [] }: Known = {},
): StockEvidence {
  const say = (taken: TakenRead): TakenRead => ({ ...taken, filled: roster.listed(taken.file)?.filled ?? null });
  const [history] = gatherHistories(reads.map(say), roster).machines.values();
  const { ordered, stepTo, contentsOf } = history ?? NO_HISTORY;
  return { ordered, stepTo, contentsOf, faulty: faulty.map(say), visits, roster };
}

/** A machine of which no read came. */
export const NO_HISTORY = { ordered: [], stepTo: new Map(), contentsOf: () => null };

/** The stock of a machine by its reads. */
export const stockOf = (reads: readonly TakenRead[], known: Known = {}): MachineStock =>
  measureStock(evidenceOf(reads, known))!;

/** What a capture shows. */
export interface Shown {
  /** Paid vends by column, then whatever else its group holds. */
  readonly vends: Readonly<Record<string, number>>;
  readonly groups?: Readonly<Record<string, readonly string[]>>;
  /** Besides identity, clock at 10:00 and board. */
  readonly segments?: readonly string[];
}

/** A capture of the machine with asset A1, on a day of November 2026. */
export function read(day: number, { vends, groups = {}, segments = [] }: Shown, options: TakenOptions = {}): TakenRead {
  const columns = Object.entries(vends).flatMap(([column, count]) => [
    `PA1*${column}*150**12*10`,
    `PA2*${count}*${count * 150}`,
    ...(groups[column] ?? []),
  ]);
  const date = `2611${String(day).padStart(2, '0')}`;
  const machine = ['ID1*S1*MODEL-A****A1', 'ID4*2*978*EUR', `ID5*${date}*1000`, 'CB1*B1', ...segments];
  return takeSegments([...machine, ...columns], { file: `${day}.dex`, ...options });
}

/** What the captures list says of a service read. */
export const service = { reason: 'service' } as const;

/** A row of the captures list. */
export function listRow(file: string, filled: boolean | null): CaptureListRow {
  const place = { file: 'list.csv', row: 2 };
  return { file, receivedAt: null, reason: null, signal: null, machine: null, bag: null, filled, place };
}

/** A row of the plan for column 11. */
export function planRow(given: Partial<PlanRow>): PlanRow {
  const place = { file: 'plan.csv', row: 2 };
  const prices = { price: 150, cardPrice: null };
  return {
    machine: 'M1',
    column: '11',
    product: null,
    par: null,
    capacity: null,
    from: null,
    ...prices,
    ...given,
    place,
  };
}

/** A visit as far as a fill is concerned. */
export function visit(visitedAt: string, capture: string | null): Visit {
  return { visitedAt, capture, counts: [{}] } as unknown as Visit;
}
