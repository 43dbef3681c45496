import type { Finding } from '../findings/index.js';
import type { Interval } from '../interval/index.js';
import type { CountRow, LocalDate, LocalDateTime, Minor } from '../model/index.js';

/** How a bag was matched to its capture. */
export type MatchedBy = 'bag' | 'time' | 'date';

/**
 * `agreed`, `over`, `short`: settled. `uncounted`: a service read with no bag. `unread`: a bag with no capture; what is
 * expected is then a floor. `unsettled`: captures are there, but something is in the way; the findings say what.
 */
export type VisitState = 'agreed' | 'over' | 'short' | 'uncounted' | 'unread' | 'unsettled';

/** An amount of cash by kind, minor units; null is not known, never 0. */
export interface CashByKind {
  readonly coins: Minor | null;
  readonly bills: Minor | null;
}

/** One line of what makes up the coins and bills expected in a bag. */
export interface ExpectedLine {
  readonly what: 'to-cash-box' | 'paid-out' | 'filled' | 'float-issued' | 'bills';
  readonly kind: 'coins' | 'bills';
  /** Signed: what is taken away is below 0. */
  readonly amount: Minor | null;
  /** The machine's counters, or the count sheet that overrides them. */
  readonly source: 'counters' | 'sheet';
}

/** One machine, one moment, one bag. */
export interface Visit {
  readonly machine: string;
  readonly location: string | null;
  readonly driver: string | null;
  readonly route: string | null;
  /** As the count sheet gives it (date, or date and time); for an uncounted visit the time of the read. */
  readonly visitedAt: LocalDateTime | LocalDate | null;
  readonly bag: string | null;
  readonly matchedBy: MatchedBy | null;
  /** File of the capture, and of the one at the last collection, from which is counted. */
  readonly capture: string | null;
  readonly since: string | null;
  readonly sinceTime: LocalDateTime | null;
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly expected: CashByKind;
  readonly expectedIsFloor: boolean;
  readonly expectedLines: readonly ExpectedLine[];
  readonly counted: CashByKind;
  readonly overShort: CashByKind & { readonly total: Minor | null };
  readonly state: VisitState;
  /** Bags settled together on this visit, this one's own included; empty when it stands alone. */
  readonly jointBags: readonly string[];
  /** What happened since the last collection; null when it is not known. */
  readonly interval: Interval | null;
  /** The rows counted: none for an uncounted visit, several for joint bags. */
  readonly counts: readonly CountRow[];
  readonly findings: readonly Finding[];
}

/** Sums over visits, minor units. They are over the settled visits (agreed, over, short) alone. */
export interface SettlementTotals {
  readonly expected: CashByKind;
  readonly counted: CashByKind;
  readonly overShort: CashByKind & { readonly total: Minor | null };
  readonly cardSales: Minor | null;
  readonly sold: number | null;
  readonly value: Minor | null;
  /** What prices off plan cost. */
  readonly loss: Minor | null;
  readonly settledVisits: number;
  readonly openVisits: number;
  /** Counted money of visits that are not settled: it is in no other sum. */
  readonly countedOpen: CashByKind;
}

/** The totals of one driver. */
export interface DriverTotals {
  readonly driver: string | null;
  readonly totals: SettlementTotals;
}

/** One route, one day, one currency. */
export interface Settlement {
  readonly route: string | null;
  readonly day: LocalDate;
  /** First and last moment covered: the earliest collection counted from, the latest visit. */
  readonly from: LocalDateTime | LocalDate | null;
  readonly to: LocalDateTime | LocalDate | null;
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly visits: readonly Visit[];
  readonly totals: SettlementTotals;
  readonly drivers: readonly DriverTotals[];
  readonly findings: readonly Finding[];
}

/** Settlements, and findings that belong to none of them. */
export interface Settlements {
  readonly settlements: readonly Settlement[];
  readonly findings: readonly Finding[];
}

/** Within how much a difference counts as agreed. With both, the larger holds. */
export interface Tolerance {
  /** Minor units. */
  readonly amount: Minor;
  /** Hundredths of a percent of what was expected: 50 is 0.5 %. */
  readonly basisPoints: number;
}

/** Options of `settleRound`. */
export interface SettleOptions {
  /** Only this route, or this day's visits. */
  readonly route?: string;
  readonly day?: LocalDate;
  /** Default: nothing. */
  readonly tolerance?: Tolerance;
  /** How far, in minutes to either side, a capture may lie from the time of a visit. Default {@link VISIT_WINDOW_MINUTES}. */
  readonly windowMinutes?: number;
  /** Leave coins paid out and filled by hand out of what is expected. Default no. */
  readonly ignoreHandMoves?: boolean;
}

/** No one can buy while the door is open: a capture so near to a visit is that visit's (domain rule). */
export const VISIT_WINDOW_MINUTES = 60;
