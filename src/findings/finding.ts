import type { CautionName } from './cautions.js';
import { FINDING_CODES, type FindingCode } from './codes.js';

/** How much a finding weighs: a fault means "do not use", a doubt "look at it", a note "good to know". */
export type Severity = 'fault' | 'doubt' | 'note';

/**
 * Where something stands. Every key is optional, since a finding may be about a byte, a sheet cell or a whole file.
 * Lines, rows and columns count from 1, offsets from 0 (bytes from the start of the file).
 */
export interface Place {
  /** The file, as the caller named it. */
  readonly file?: string;
  /** Index of the read within its file, from 0. */
  readonly read?: number;
  /** Segment identifier, such as `PA2`. */
  readonly segment?: string;
  /** Element name, such as `PA201`. */
  readonly element?: string;
  readonly line?: number;
  readonly offset?: number;
  /** The operator's own name of the machine, where known. */
  readonly machine?: string;
  /** The machine's column (selection), such as `11`. */
  readonly column?: string;
  /** Row of a sheet, the header being row 1. */
  readonly row?: number;
  /** Header of the sheet column. */
  readonly field?: string;
}

/** Something a person should know about a capture, an interval, a sheet or a settlement. Data, never thrown. */
export interface Finding extends Place {
  readonly code: FindingCode;
  readonly severity: Severity;
  /** One sentence that says what is the case. */
  readonly message: string;
  /** What to do now, in the reader's words. */
  readonly advice?: string;
  /** The cautions that go with it: whoever shows the advice shows these. */
  readonly cautions?: readonly CautionName[];
  readonly expected?: string;
  readonly received?: string;
  /** Other places the finding rests on, such as the earlier read of an interval. */
  readonly related?: readonly Place[];
}

/** What may be said besides code and message when a finding is made. */
export interface FindingDetail extends Place {
  /** Overrides the default of the code, for codes whose weight depends on the case (domain rules in codes.ts). */
  readonly severity?: Severity;
  readonly advice?: string;
  readonly cautions?: readonly CautionName[];
  readonly expected?: string;
  readonly received?: string;
  readonly related?: readonly Place[];
}

/**
 * Make a finding, its severity taken from the code unless the case decides otherwise.
 *
 * @example makeFinding('segment-count', 'SE says 10 segments, 9 are there.', { segment: 'SE', element: 'SE01' })
 */
export function makeFinding(code: FindingCode, message: string, detail: FindingDetail = {}): Finding {
  return { code, severity: FINDING_CODES[code].severity, message, ...detail };
}

const WEIGHT: Record<Severity, number> = { fault: 2, doubt: 1, note: 0 };

/** Order two findings worst first; equal weights keep their order under a stable sort. */
export function compareSeverity(a: Finding, b: Finding): number {
  return WEIGHT[b.severity] - WEIGHT[a.severity];
}

/** The heaviest severity among findings, or null when there are none. */
export function worstSeverity(findings: readonly Finding[]): Severity | null {
  let worst: Severity | null = null;
  for (const { severity } of findings) {
    if (worst === null || WEIGHT[severity] > WEIGHT[worst]) worst = severity;
  }
  return worst;
}
