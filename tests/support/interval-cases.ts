import { buildInterval, type Interval, ReadPair, type TakenRead } from '../../src/interval/index.js';
import { Roster } from '../../src/sheets/index.js';
import { type TakenOptions, takeSegments } from './taken.js';

/** Who the machine of the cases is, which money it keeps and what its clock says: a day apart. */
const IDENTITY = ['ID1*S1*MODEL-A****A1', 'ID4*2*978*EUR', 'CB1*B1'];
const CLOCKS = { from: 'ID5*261120*1000', to: 'ID5*261121*1000' } as const;

/** What is known of both reads, and of each. */
export interface PairOptions extends TakenOptions {
  readonly from?: TakenOptions;
  readonly to?: TakenOptions;
}

/** A read of the machine of the cases: its identity, and the segments given in place of or beside it. */
export function readOf(end: 'from' | 'to', segments: readonly string[], options: TakenOptions = {}): TakenRead {
  const idOf = (segment: string): string => segment.split('*')[0]!;
  const given = new Set(segments.map(idOf));
  const own = [...IDENTITY, CLOCKS[end]].filter((segment) => !given.has(idOf(segment)));
  const [first, ...rest] = [...own, ...segments].sort(
    (a, b) => Number(!a.startsWith('ID1')) - Number(!b.startsWith('ID1')),
  );
  return takeSegments([first!, ...rest], { file: `${end}.dex`, ...options });
}

/** Two reads of one machine, a day apart. */
export function pairOf(from: readonly string[], to: readonly string[], options: PairOptions = {}): ReadPair {
  const { from: ofFrom, to: ofTo, ...both } = options;
  return new ReadPair(readOf('from', from, { ...both, ...ofFrom }), readOf('to', to, { ...both, ...ofTo }));
}

/** The interval between two reads of one machine, a day apart. */
export function intervalOf(from: readonly string[], to: readonly string[], options: PairOptions = {}): Interval {
  const pair = pairOf(from, to, options);
  return buildInterval(pair.from, pair.to, options.roster ?? new Roster());
}

/** The codes of an interval's findings, in order. */
export const codesOf = ({ findings }: Pick<Interval, 'findings'>): string[] => findings.map(({ code }) => code);

/** The message of the only finding with a code; wrong use when there is none, or more than one. */
export function messageOf({ findings }: Pick<Interval, 'findings'>, code: string): string {
  const found = findings.filter((finding) => finding.code === code);
  if (found.length !== 1) throw new RangeError(`${found.length} findings ${code}`);
  return found[0]!.message;
}
