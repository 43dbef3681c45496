import { type Finding, type FindingCode, type FindingDetail, makeFinding } from '../findings/index.js';
import { describeMoney, type Minor, pushAll } from '../model/index.js';
import type { CashByKind } from './settlement.js';

/** Where a visit's findings stand: the row of the count sheet, else the capture. */
export interface VisitPlace {
  readonly machine: string;
  readonly file?: string;
  readonly row?: number;
}

/** Currency and decimals of amounts; null is not known. */
export interface MoneyUnit {
  readonly currency: string | null;
  readonly decimals: number | null;
}

/** What may be said besides code and message. */
export type VisitDetail = Pick<FindingDetail, 'advice' | 'cautions' | 'severity' | 'field'>;

/** Collects what is said of one visit, in the order it is said, with the money written in the visit's unit. */
export class VisitTeller {
  readonly findings: Finding[] = [];
  readonly #place: VisitPlace;
  readonly #unit: MoneyUnit;

  constructor(place: VisitPlace, unit: MoneyUnit) {
    this.#place = place;
    this.#unit = unit;
  }

  say(code: FindingCode, message: string, more: VisitDetail = {}): void {
    this.findings.push(makeFinding(code, message, { ...this.#place, ...more }));
  }

  /** Take over findings that say their own place. */
  add(findings: readonly Finding[]): void {
    pushAll(this.findings, findings);
  }

  money(amount: Minor): string {
    return describeMoney(amount, this.#unit.decimals, this.#unit.currency);
  }

  /** With its sign, also above 0. */
  signed(amount: Minor): string {
    return amount > 0 ? `+${this.money(amount)}` : this.money(amount);
  }

  /** `45.00 EUR in coins and 10.00 EUR in bills`, as far as known and not 0; empty when nothing is known. */
  cash({ coins, bills }: CashByKind): string {
    const parts = [
      ...(coins === null || coins === 0 ? [] : [`${this.money(coins)} in coins`]),
      ...(bills === null || bills === 0 ? [] : [`${this.money(bills)} in bills`]),
    ];
    if (parts.length > 0) return parts.join(' and ');
    return coins === null && bills === null ? '' : this.money(0);
  }
}
