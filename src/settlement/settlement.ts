import type { Finding } from '../findings/index.js';
import type { Interval, Step } from '../interval/index.js';
import type { Count, CountRow, LocalDate, LocalDateTime, Minor } from '../model/index.js';

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

/** What a machine sold since the last collection. Null is not known, never 0. */
export interface VisitSales {
  readonly sold: Count | null;
  readonly value: Minor | null;
  /** By card; 0 for a machine that has no card counters and, by the roster, no reader. */
  readonly cardSales: Minor | null;
  /** What prices off plan cost; null also where there is no plan. */
  readonly loss: Minor | null;
  /** Whether there is a plan that the prices were held against. */
  readonly hasPlan: boolean;
}

/** One machine, one moment, one bag. */
export interface Visit {
  readonly machine: string;
  readonly location: string | null;
  readonly driver: string | null;
  /** Everybody who collected one of the bags settled here; several only for joint bags. */
  readonly drivers: readonly string[];
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
  /** The steps whose sum is expected, in order; empty where nothing is known. */
  readonly expectedFrom: readonly Step[];
  /** Not known where several rows claim the visit: they may be one bag counted twice. */
  readonly counted: CashByKind;
  readonly overShort: CashByKind & { readonly total: Minor | null };
  readonly state: VisitState;
  /** Bags settled together on this visit, this one's own included; empty when it stands alone. */
  readonly jointBags: readonly string[];
  /** Sales since the last collection, as `interval` has them, else added up from read to read. */
  readonly sales: VisitSales;
  /**
   * What happened since the last collection, up to the visit, or up to the last read before one that has no usable
   * capture; null when it is not known.
   */
  readonly interval: Interval | null;
  /** The rows counted: none for an uncounted visit, several for joint bags. */
  readonly counts: readonly CountRow[];
  /** Those among them that are of earlier visits. */
  readonly joinedCounts: readonly CountRow[];
  /** Whether the rows are in another money than the machine's, so that they are in no sum with it. */
  readonly isOtherMoney: boolean;
  readonly findings: readonly Finding[];
}

/**
 * Sums over visits, minor units. They are over the settled visits (agreed, over, short) alone, and not known (null) where
 * there is none; a kind of which nothing was expected and nothing counted adds nothing.
 */
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
  /** Visits that are settled neither by themselves nor, as one of joint bags, on a later one. */
  readonly openVisits: number;
  /** What was counted on those: it is in no other sum. A kind is null where none of them has a count of it. */
  readonly countedOpen: CashByKind;
}

/** The totals of one driver; null where none is named, and for joint bags of several drivers. */
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
  /** Minor units of the machine's money. */
  readonly amount: Minor;
  /** Hundredths of a percent of what was expected, rounded down to a minor unit: 50 is 0.5 %. */
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
  /** Leave coins paid out, filled and issued by hand out of what is expected, whatever says them. Default no. */
  readonly ignoreHandMoves?: boolean;
}

/** No one can buy while the door is open: a capture so near to a visit is that visit's (domain rule). */
export const VISIT_WINDOW_MINUTES = 60;
