import type { LocalDate, LocalDateTime } from './local-time.js';
import type { Count, Minor } from './money.js';

/** An exact percentage: 1 % is 10 000, so that four decimals of a percent are a whole number. */
export type PartsPerMillion = number;

/** Where a row of an office sheet came from: the file as the caller named it, and its row, the header being row 1. */
export interface SheetPlace {
  readonly file: string;
  readonly row: number;
}

/** One machine of the operator's roster (`machines.csv`). Null means the sheet does not say. */
export interface MachineRow {
  readonly machine: string;
  readonly asset: string | null;
  readonly serial: string | null;
  readonly location: string | null;
  readonly route: string | null;
  readonly driver: string | null;
  /** ISO 4217 alphabetic code, upper case. */
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly hasCash: boolean | null;
  readonly hasBills: boolean | null;
  readonly hasCard: boolean | null;
  /** Name of the profile that says how this machine departs from the standard. */
  readonly profile: string | null;
  readonly active: boolean | null;
  /** The location's share of what the machine sells, and of what it is taken: with the sales tax, or net of it. */
  readonly commission: PartsPerMillion | null;
  readonly commissionBase: 'gross' | 'net' | null;
  /** Sales tax, and whether the prices contain it. */
  readonly tax: PartsPerMillion | null;
  readonly taxIncluded: boolean | null;
  readonly place: SheetPlace;
}

/** What one column of one machine should sell, and at which price (`plan.csv`). Prices in minor units. */
export interface PlanRow {
  readonly machine: string;
  readonly column: string;
  readonly product: string | null;
  readonly price: Minor | null;
  readonly cardPrice: Minor | null;
  /** Fill-to level. */
  readonly par: Count | null;
  readonly capacity: Count | null;
  /** First date on which the row holds; null means always. */
  readonly from: LocalDate | null;
  readonly place: SheetPlace;
}

/** One bag of money as counted by hand (`counts.csv`). Amounts in minor units of the machine's currency. */
export interface CountRow {
  readonly machine: string;
  /** When the bag was pulled. `time` is null where the sheet gives only a date. */
  readonly visitedAt: { readonly date: LocalDate; readonly time: string | null };
  readonly bag: string | null;
  readonly coins: Minor | null;
  readonly bills: Minor | null;
  readonly route: string | null;
  readonly driver: string | null;
  readonly countedAt: LocalDateTime | LocalDate | null;
  readonly note: string | null;
  /** These three override the machine's counters where given. */
  readonly paidOut: Minor | null;
  readonly filled: Minor | null;
  readonly floatIssued: Minor | null;
  /** Pieces by denomination (value in minor units → number), where the sheet has such columns. */
  readonly denominations: ReadonlyMap<Minor, Count>;
  /** Name of the capture file, where the sheet gives one. */
  readonly capture: string | null;
  /** The entry of the book that the row takes the place of; null for a row that corrects nothing by number. */
  readonly corrects: number | null;
  readonly place: SheetPlace;
}

/** A row of the count sheet that could not be used, as far as it could be read: a bag that somebody counted all the same. */
export interface UnusableCount {
  /** As the row has it, whether the machine is known or not. */
  readonly machine: string | null;
  readonly visitedAt: CountRow['visitedAt'] | null;
  readonly bag: string | null;
  readonly route: string | null;
  readonly driver: string | null;
  /** Why it could not be used, as a sentence that names file and row. */
  readonly why: string;
  readonly place: SheetPlace;
}

/** What a card processor paid out for a machine or device (`deposits.csv`). Amounts in minor units; fees are kept back. */
export interface DepositRow {
  /** At least one of the two is given. */
  readonly machine: string | null;
  /** Serial number of the card device, as DA101 or DB101 has it. */
  readonly device: string | null;
  readonly date: LocalDate;
  readonly gross: Minor;
  readonly fees: Minor | null;
  readonly net: Minor | null;
  /** Gross less fees less net, where that is not 0: then one of the three is wrong. */
  readonly mismatch: Minor | null;
  /** ISO 4217 alphabetic code, and the decimals that the amounts are in. */
  readonly currency: string | null;
  readonly decimals: number;
  readonly reference: string | null;
  /** First and last day of the sales it is for, where the sheet says. */
  readonly periodFrom: LocalDate | null;
  readonly periodTo: LocalDate | null;
  readonly place: SheetPlace;
}

/** Why a capture was taken. */
export type CaptureReason = 'scheduled' | 'on demand' | 'service';

/** What the receiving side knew of one capture (`captures list`). */
export interface CaptureListRow {
  readonly file: string;
  readonly receivedAt: LocalDateTime | null;
  readonly reason: CaptureReason | null;
  /** Signal strength as a modem reports it, 1 to 31. */
  readonly signal: number | null;
  /** The machine and bag, where the list names them. */
  readonly machine: string | null;
  readonly bag: string | null;
  /** Whether the columns were filled to par when it was taken; null where the list does not say. */
  readonly filled: boolean | null;
  readonly place: SheetPlace;
}
