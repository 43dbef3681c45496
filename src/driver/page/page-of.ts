import type { Verdict } from '../../checks/index.js';
import { VERDICTS } from '../desk/capture-line.js';
import type { CaptureLine } from '../desk/messages.js';

/** So many captures stand on one page of the list. */
export const PAGE_LENGTH = 50;

/** One page of the list of captures. */
export interface ListPage {
  readonly shown: readonly CaptureLine[];
  /** Number of the page, from 0: the one wanted, or the last there is. */
  readonly page: number;
  readonly pages: number;
  /** How many captures stand on the pages before. */
  readonly from: number;
  readonly total: number;
}

/** A page of those captures that are asked for, the worst first. */
export function pageOf(lines: readonly CaptureLine[], choice: Verdict | 'all', wanted: number): ListPage {
  const chosen = VERDICTS.filter((verdict) => choice === 'all' || choice === verdict);
  const ordered = chosen.flatMap((verdict) => lines.filter((line) => line.verdict === verdict));
  const pages = Math.max(1, Math.ceil(ordered.length / PAGE_LENGTH));
  const page = Math.min(wanted, pages - 1);
  const from = page * PAGE_LENGTH;
  return { shown: ordered.slice(from, from + PAGE_LENGTH), page, pages, from, total: ordered.length };
}
