import { readFileSync } from 'node:fs';
import { ROOT } from './run-program.js';

interface Cash {
  readonly coins: number;
  readonly bills: number;
}

/** A column as it was played; money in minor units. */
export interface ColumnTruth {
  readonly column: string;
  readonly product: string;
  readonly sold: number;
  readonly value: number;
  readonly split: readonly { count: number; price: number }[];
  readonly test: number;
  readonly free: number;
  readonly priceFrom: number;
  readonly priceTo: number;
  readonly pricePlan: number;
  readonly lossFromPrice: number;
}

/** What happened at one machine from one collection to the next. */
export interface VisitTruth {
  readonly machine: string;
  readonly bag: string;
  readonly openingCapture: string;
  readonly visitCapture: string | null;
  readonly state: string;
  readonly inTheBag: Cash;
  readonly counted: Cash;
  readonly overShort: Cash;
  readonly known?: { readonly expectedUpToLastReadBefore: Cash; readonly expectedSinceRestart?: Cash };
  readonly totals: { readonly sold: number; readonly value: number; readonly test: number; readonly free: number };
  readonly cash: Readonly<Record<string, number>>;
  readonly columns: readonly ColumnTruth[];
}

/** The demo as it was played: an invented scenario whose figures are known because they were made. */
export const TRUTH = JSON.parse(readFileSync(`${ROOT}/fixtures/demo/truth.json`, 'utf8')) as {
  readonly route: string;
  readonly driver: string;
  readonly visits: readonly VisitTruth[];
  readonly cardDays: readonly { readonly machine: string; readonly amount: number; readonly paid: number | null }[];
};

/** The visits whose counters ran on from one collection to the next, and whose captures are both there. */
export const WHOLE_VISITS = TRUTH.visits.filter(({ known }) => known === undefined);

/** A capture of the demo as a user names it. */
export const captureOf = (file: string): string => `fixtures/demo/captures/${file}`;
