import type { CautionName, Finding } from '../findings/index.js';
import type { CheckedRead } from './check-capture.js';

/** A capture for the install check: its read as it was checked, and what was found about the file around it. */
export interface InstallCapture extends CheckedRead {
  readonly fileFindings?: readonly Finding[];
}

/** What the technician says of the two captures. */
export interface InstallOptions {
  /** The column of the test vend between them. Without it any one column may have moved. */
  readonly column?: string | null;
  /** Whether the first was a service read, so that it should have cleared the counters; null when that is not known. */
  readonly isService?: boolean | null;
}

/** One point of the install check. `not-known`: nothing given tells, so it neither passes nor fails. */
export interface InstallItem {
  /** Short name for programs. */
  readonly id:
    | 'capture'
    | 'machine'
    | 'control-board'
    | 'coin-mechanism'
    | 'bill-validator'
    | 'card-reader'
    | 'clock'
    | 'faults'
    | 'prices'
    | 'test-vend'
    | 'second-capture'
    | 'vend-counted'
    | 'reset';
  /** What is looked at, in words. */
  readonly what: string;
  readonly state: 'pass' | 'missing' | 'not-known';
  /** What was seen. */
  readonly detail: string;
  /** What to do now; null when there is nothing to do. */
  readonly advice: string | null;
  /** The cautions that go with it. */
  readonly cautions?: readonly CautionName[];
}

/** What an install check comes to. */
export interface InstallCheck {
  /** Whether nothing is missing. Points that are not known do not stand in its way; the headline counts them. */
  readonly passed: boolean;
  /** One line: passed, or what is missing. */
  readonly headline: string;
  readonly items: readonly InstallItem[];
}
