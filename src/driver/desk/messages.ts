import type { Verdict } from '../../checks/index.js';
import type { CheckJson, FindingJson, IntervalJson } from '../../report/index.js';
import type { ColumnLine } from './describe-columns.js';

/** A file as a person chose or dropped it, with the folder it lay in where the browser tells it. */
export interface SentFile {
  readonly file: File;
  readonly path: string;
}

/** What the page asks of the desk, where files are read and checked. */
export type Request =
  /** Take files: captures in place of those before or beside them, office sheets in place of the one of that kind. */
  | { readonly ask: 'take'; readonly files: readonly SentFile[]; readonly keepsCaptures: boolean }
  /** Take each file's own time as when the capture was taken, or not; checks everything again. */
  | { readonly ask: 'file-times'; readonly isReceived: boolean }
  | { readonly ask: 'stop' }
  | { readonly ask: 'clear' }
  | { readonly ask: 'show'; readonly id: number; readonly read: number }
  | { readonly ask: 'json' };

/** One capture in the list of all. */
export interface CaptureLine {
  /** Number of the capture among those there are, from 0. */
  readonly id: number;
  readonly file: string;
  readonly verdict: Verdict;
  /** The verdict and the one thing to do. */
  readonly headline: string;
  /** Its machine as the roster or it itself names it; of several reads the first. */
  readonly machine: string | null;
  readonly clock: string | null;
  readonly cautions: readonly string[];
}

/** One of the office's sheets, and how much of it is used. */
export interface SheetLine {
  readonly file: string;
  /** Null: a sheet that is of no use here. */
  readonly kind: 'machines' | 'plan' | 'captures list' | null;
  readonly rows: number;
}

/** Everything the page shows of one capture. */
export interface CaptureView {
  readonly id: number;
  readonly check: CheckJson;
  readonly cautions: readonly string[];
  /** The read whose columns these are, among `readCount`. */
  readonly read: number;
  readonly readCount: number;
  readonly columns: readonly ColumnLine[];
  readonly currency: string | null;
  readonly decimals: number | null;
  /** Null while it is still being worked out. */
  readonly between: BetweenView | null;
}

/** What happened between reads of a machine. */
export interface BetweenView {
  readonly intervals: readonly IntervalJson[];
  /** Why reads are in no interval. */
  readonly findings: readonly FindingJson[];
  readonly cautions: readonly string[];
}

/** What the desk reports. `run` tells the takings apart: what is late of an earlier one is of no use. */
export type Report =
  | { readonly tell: 'ready' }
  | { readonly tell: 'sorted'; readonly run: number; readonly total: number; readonly sheets: readonly SheetLine[] }
  | { readonly tell: 'general'; readonly run: number; readonly findings: readonly FindingJson[] }
  | { readonly tell: 'checked'; readonly run: number; readonly lines: readonly CaptureLine[] }
  | { readonly tell: 'ended'; readonly run: number; readonly isStopped: boolean; readonly between: BetweenView | null }
  | { readonly tell: 'view'; readonly run: number; readonly view: CaptureView }
  | { readonly tell: 'json'; readonly run: number; readonly text: string }
  | { readonly tell: 'failed'; readonly message: string };
