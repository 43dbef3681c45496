import type { Finding } from '../../findings/index.js';
import { type Moved, type PlacedRead, STEP_COUNTERS, type Step, type StepColumn } from '../../interval/index.js';
import type { StepToKeep } from '../store/index.js';
import { putFilesIn } from './file-marks.js';
import { NumberReader, NumberWriter } from './whole-numbers.js';

/** What two steps of one machine mostly have in common: its columns with their prices, and on what its figures rest. */
interface Layout {
  readonly head: Pick<
    Step,
    'currency' | 'decimals' | 'basis' | 'floor' | 'isSameMoney' | 'usesIntervalCounters' | 'restart' | 'reset'
  > & { readonly isCashBookedAsCard: boolean };
  /** How far each counter can be relied on, in the order of STEP_COUNTERS; 0 where it is a whole lifetime counter. */
  readonly moved: readonly (0 | readonly [Moved['basis'], 0 | 1, Moved['why']])[];
  readonly columns: readonly (readonly [
    column: string,
    product: string | null,
    priceFrom: number | null,
    priceTo: number | null,
    pricePlan: number | null,
    basis: Moved['basis'],
    bits: number,
  ])[];
}

const BITS = ['floor', 'inFrom', 'inTo', 'keepsTest', 'keepsFree'] as const;
const COUNTED = ['sold', 'value', 'test', 'free', 'unexplained', 'loss'] as const;
const TOTALS = ['sold', 'value', 'test', 'free', 'loss', 'unexplained'] as const;
const CASH = [
  'cashIn',
  'toCashBox',
  'toTubes',
  'bills',
  'dispensed',
  'byHand',
  'filled',
  'overpaid',
  'cashSales',
  'cardSales',
  'tokenSales',
  'credited',
  'tubesFrom',
  'tubesTo',
  'tubeDifference',
  'customerDifference',
] as const satisfies readonly Exclude<keyof Step['cash'], 'isCashBookedAsCard'>[];

/** How the figures of all columns are written: one for all, what was sold times the price, or each by itself. */
const WRITTEN = { alike: 0, byPrice: 1, each: 2 } as const;

/**
 * A step in few bytes: some 150 to 300 for a machine of 45 columns, beside a layout that many steps have in common.
 *
 * Findings name the files of its reads as {@link nameEntry} does.
 */
export function packStep(step: Step): Kept {
  const { columns, totals, cash, differences, findings } = step;
  const writer = new NumberWriter();
  for (const key of TOTALS) writer.add(totals[key]);
  for (const key of CASH) writer.add(cash[key]);
  for (const key of STEP_COUNTERS) writer.add(differences[key].value);
  for (const key of COUNTED) writeColumns(columns, key, writer);
  return {
    layout: JSON.stringify(layOut(step)),
    figures: writer.bytes(),
    findings: findings.length === 0 ? null : JSON.stringify(findings),
  };
}

function layOut(step: Step): Layout {
  const { currency, decimals, basis, floor, isSameMoney, usesIntervalCounters, restart, reset } = step;
  const { columns, cash, differences } = step;
  const said = restart && { cause: restart.cause, evidence: restart.evidence, counters: restart.counters };
  return {
    head: {
      ...{ currency, decimals, basis, floor, isSameMoney, usesIntervalCounters, restart: said, reset },
      isCashBookedAsCard: cash.isCashBookedAsCard,
    },
    moved: STEP_COUNTERS.map((key) => {
      const { basis, floor, why } = differences[key];
      return basis === 'lifetime' && !floor && why === null ? 0 : [basis, floor ? 1 : 0, why];
    }),
    columns: columns.map((one) => {
      const bits = BITS.reduce((sum, bit, place) => sum + (one[bit] ? 2 ** place : 0), 0);
      return [one.column, one.product, one.priceFrom, one.priceTo, one.pricePlan, one.basis, bits];
    }),
  };
}

function writeColumns(columns: readonly StepColumn[], key: (typeof COUNTED)[number], writer: NumberWriter): void {
  const first = columns[0];
  if (first === undefined) return;
  if (columns.every((one) => one[key] === first[key])) {
    writer.add(WRITTEN.alike);
    writer.add(first[key]);
  } else if (key === 'value' && columns.every(isSoldByPrice)) {
    writer.add(WRITTEN.byPrice);
  } else {
    writer.add(WRITTEN.each);
    for (const one of columns) writer.add(one[key]);
  }
}

const isSoldByPrice = ({ sold, value, priceTo }: StepColumn): boolean =>
  sold !== null && priceTo !== null && value === sold * priceTo;

/**
 * A step as it was packed; its columns are unpacked when they are asked for.
 *
 * @param fileOf - the name of a file by its entry
 * @throws SyntaxError or RangeError (also later, for its columns) when it is not what was packed: see `sealStep`
 */
export function unpackStep(kept: Kept, from: PlacedRead, to: PlacedRead, fileOf: (entry: number) => string): Step {
  return new UnpackedStep(kept, from, to, fileOf);
}

const LAYOUTS = new Map<string, Layout>();
const LAYOUTS_AT_HAND = 500;

function parseLayout(text: string): Layout {
  const known = LAYOUTS.get(text);
  if (known !== undefined) return known;
  const layout = JSON.parse(text) as Layout;
  if (LAYOUTS.size >= LAYOUTS_AT_HAND) LAYOUTS.clear();
  LAYOUTS.set(text, layout);
  return layout;
}

type Kept = Pick<StepToKeep, 'layout' | 'figures' | 'findings'>;

/** What a kept step says without its reads; its columns are unpacked when they are asked for. */
export class KeptFigures {
  readonly head: Layout['head'];
  readonly totals: Step['totals'];
  readonly cash: Step['cash'];
  readonly differences: Step['differences'];
  readonly #layout: Layout;
  readonly #reader: NumberReader;
  #columns: readonly StepColumn[] | null = null;

  constructor({ layout, figures }: Pick<Kept, 'layout' | 'figures'>) {
    this.#layout = parseLayout(layout);
    this.#reader = new NumberReader(figures);
    const { head, moved } = this.#layout;
    const reader = this.#reader;
    this.head = head;
    this.totals = readNumbers<Step['totals']>(TOTALS, reader);
    this.cash = { ...readNumbers<Step['cash']>(CASH, reader), isCashBookedAsCard: head.isCashBookedAsCard };
    const differences = {} as Record<string, Moved>;
    for (const [place, key] of STEP_COUNTERS.entries()) differences[key] = readMoved(moved[place]!, reader.next());
    this.differences = differences as Step['differences'];
  }

  get currency(): Step['currency'] {
    return this.head.currency;
  }
  get decimals(): Step['decimals'] {
    return this.head.decimals;
  }
  get floor(): boolean {
    return this.head.floor;
  }
  get columns(): readonly StepColumn[] {
    this.#columns ??= readColumns(this.#layout, this.#reader);
    return this.#columns;
  }
}

function readNumbers<T>(keys: readonly string[], reader: NumberReader): T {
  const numbers: Record<string, number | null> = {};
  for (const key of keys) numbers[key] = reader.next();
  return numbers as T;
}

function readMoved(said: Layout['moved'][number], value: number | null): Moved {
  if (said === 0) return { value, basis: 'lifetime', floor: false, why: null };
  return { value, basis: said[0], floor: said[1] === 1, why: said[2] };
}

function readColumns({ columns }: Layout, reader: NumberReader): StepColumn[] {
  const counted = {} as Record<(typeof COUNTED)[number], readonly (number | null)[]>;
  for (const key of COUNTED) counted[key] = readCounted(columns, counted.sold, reader);
  // Each is written out key by key: made by spreading, a column took five times as long.
  return columns.map(([column, product, priceFrom, priceTo, pricePlan, basis, bits], place) => ({
    column,
    product,
    priceFrom,
    priceTo,
    pricePlan,
    basis,
    sold: counted.sold[place]!,
    value: counted.value[place]!,
    test: counted.test[place]!,
    free: counted.free[place]!,
    unexplained: counted.unexplained[place]!,
    loss: counted.loss[place]!,
    floor: (bits & 1) !== 0,
    inFrom: (bits & 2) !== 0,
    inTo: (bits & 4) !== 0,
    keepsTest: (bits & 8) !== 0,
    keepsFree: (bits & 16) !== 0,
  }));
}

function readCounted(
  columns: Layout['columns'],
  sold: readonly (number | null)[] | undefined,
  reader: NumberReader,
): readonly (number | null)[] {
  if (columns.length === 0) return [];
  const written = reader.next();
  if (written === WRITTEN.alike) return new Array<number | null>(columns.length).fill(reader.next());
  if (written === WRITTEN.byPrice) return columns.map((column, place) => sold![place]! * column[3]!);
  return columns.map(() => reader.next());
}

class UnpackedStep implements Step {
  readonly from: PlacedRead;
  readonly to: PlacedRead;
  readonly #figures: KeptFigures;
  readonly #kept: string | null;
  readonly #fileOf: (entry: number) => string;
  #findings: readonly Finding[] | null = null;

  constructor(kept: Kept, from: PlacedRead, to: PlacedRead, fileOf: (entry: number) => string) {
    this.from = from;
    this.to = to;
    this.#figures = new KeptFigures(kept);
    this.#kept = kept.findings;
    this.#fileOf = fileOf;
  }

  get currency(): Step['currency'] {
    return this.#figures.currency;
  }
  get decimals(): Step['decimals'] {
    return this.#figures.decimals;
  }
  get basis(): Step['basis'] {
    return this.#figures.head.basis;
  }
  get floor(): boolean {
    return this.#figures.floor;
  }
  get isSameMoney(): boolean {
    return this.#figures.head.isSameMoney;
  }
  get usesIntervalCounters(): boolean {
    return this.#figures.head.usesIntervalCounters;
  }
  get restart(): Step['restart'] {
    return this.#figures.head.restart;
  }
  get reset(): Step['reset'] {
    return this.#figures.head.reset;
  }
  get columns(): Step['columns'] {
    return this.#figures.columns;
  }
  get totals(): Step['totals'] {
    return this.#figures.totals;
  }
  get cash(): Step['cash'] {
    return this.#figures.cash;
  }
  get differences(): Step['differences'] {
    return this.#figures.differences;
  }
  get findings(): readonly Finding[] {
    this.#findings ??= this.#kept === null ? [] : unpackFindings(this.#kept, this.#fileOf);
    return this.#findings;
  }
}

function unpackFindings(json: string, fileOf: (entry: number) => string): readonly Finding[] {
  return JSON.parse(putFilesIn(json, fileOf)) as readonly Finding[];
}

/** What stands in place of a step's layout where nothing can be taken from one read to the next. */
const GAP = 'gap';

/** Two reads between which there is no step, and why, as it is kept. */
export function packGap(finding: Finding): Kept {
  return { layout: GAP, figures: new Uint8Array(), findings: JSON.stringify([finding]) };
}

/** Why there is no step between two reads; null where there is one. */
export function unpackGap({ layout, findings }: Kept, fileOf: (entry: number) => string): readonly Finding[] | null {
  return layout === GAP ? unpackFindings(findings ?? '[]', fileOf) : null;
}
