import type { TakenRead } from '../../interval/index.js';
import { tubeContents } from '../../interval/index.js';
import { type Count, type Minor, multiply } from '../../model/index.js';
import { locate } from '../../read/index.js';

/** What one coin tube holds. Null is not known. */
export interface TubeLevel {
  readonly name: string | null;
  readonly coin: Minor | null;
  readonly coins: Count | null;
  readonly amount: Minor | null;
  /** The line of the file that says it. */
  readonly line: number | null;
}

/** What the tubes held at a read. */
export interface TubeLevels {
  readonly tubes: readonly TubeLevel[];
  /** Tubes that are not in the list, since a hostile capture can have any number of them. */
  readonly left: Count;
  readonly total: Minor | null;
  /** Whether the coin mechanism knows only low and full, so that the levels are estimates. */
  readonly isEstimate: boolean;
}

const MOST_TUBES = 24;

/** Read the tubes' levels off a read. */
export function readTubeLevels(taken: TakenRead): TubeLevels {
  const { read, profile } = taken;
  const lines = read.lines('CA17');
  const tubes = lines.slice(0, MOST_TUBES).map((line): TubeLevel => {
    const coin = read.block.number(line, 2);
    const coins = read.block.number(line, 3);
    return {
      name: read.block.text(line, 1) || null,
      coin,
      coins,
      amount: coin === null || coins === null ? null : multiply(coins, coin),
      line: locate(read, line).line ?? null,
    };
  });
  return {
    tubes,
    left: lines.length - tubes.length,
    total: tubeContents(read),
    isEstimate: profile?.tubesEstimated === true,
  };
}
