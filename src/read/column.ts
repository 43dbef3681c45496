import { ELEMENT, type ElementDef, type ElementName, SEGMENT } from '../dictionary/index.js';
import type { Place } from '../findings/index.js';
import type { Minor } from '../model/index.js';
import { COLUMN_STRIDE } from './line-index.js';
import { parseMachineDate, parseMachineTime } from './machine-date.js';
import { type Figure, locate, type Read } from './read.js';

/** Paid vends of one column by payment device and price list (a PA7 segment). Values in minor units. */
export interface PaymentLine {
  /** CA cash, DA cashless 1, DB cashless 2, TA token. */
  readonly device: string;
  readonly list: string;
  readonly price: Minor | null;
  /** Number and value since initialisation, then since the last reset. */
  readonly count: number | null;
  readonly value: Minor | null;
  readonly intervalCount: number | null;
  readonly intervalValue: Minor | null;
  readonly line: number;
}

const FIRST = SEGMENT.PA1.index;
const PA101 = ELEMENT.PA101;
const PA102 = ELEMENT.PA102;

/** One column (selection) of a read: its PA segments, read where they lie. */
export class Column {
  readonly #read: Read;
  readonly #number: number;
  #id: string | null = null;

  /** @param number - which column of the read, from 0 */
  constructor(read: Read, number: number) {
    this.#read = read;
    this.#number = number;
  }

  /** The column's name as the machine gives it (PA101). Never empty. */
  get id(): string {
    // Kept, as it is asked for again by everything that looks for the column in another read.
    this.#id ??= this.text(PA101)!;
    return this.#id;
  }

  /** The price in the machine, minor units (PA102). */
  get price(): Minor | null {
    return this.number(PA102);
  }

  /** The line in the block of the column's segment, -1 when there is none. For PA1 to PA5. */
  line(segmentIndex: number): number {
    const slot = segmentIndex - FIRST;
    return slot < COLUMN_STRIDE ? this.#read.index.columns[this.#number * COLUMN_STRIDE + slot]! : -1;
  }

  /** The number of an element of PA1 to PA5: null when it is absent or malformed. */
  number(element: ElementName | ElementDef): number | null {
    const definition = typeof element === 'string' ? ELEMENT[element] : element;
    const line = this.line(definition.segmentIndex);
    return line < 0 ? null : this.#read.block.number(line, definition.position);
  }

  /** The text of an element of PA1 to PA5: null when it is absent or empty. */
  text(element: ElementName | ElementDef): string | null {
    const definition = typeof element === 'string' ? ELEMENT[element] : element;
    const line = this.line(definition.segmentIndex);
    return (line < 0 ? null : this.#read.block.text(line, definition.position)) || null;
  }

  /** The number of an element with the place it stands at; null when it is absent or malformed. */
  figure(element: ElementName | ElementDef): Figure | null {
    const definition = typeof element === 'string' ? ELEMENT[element] : element;
    const value = this.number(definition);
    return value === null ? null : { ...this.place(definition), element: definition.name, value };
  }

  /** Where an element stands, or its segment where the element is absent, or the column. */
  place(element: ElementName | ElementDef = PA101): Place {
    const definition = typeof element === 'string' ? ELEMENT[element] : element;
    const line = this.line(definition.segmentIndex);
    const place = line < 0 ? locate(this.#read, this.line(FIRST)) : locate(this.#read, line, definition.position);
    return { ...place, column: this.id };
  }

  /** When the column was last sold out (PA5): date, and time where given; null when it never was or is not said. */
  get soldOutAt(): { readonly date: string; readonly time: string | null } | null {
    const date = parseMachineDate(this.text('PA501') ?? '');
    return date === null ? null : { date, time: parseMachineTime(this.text('PA502') ?? '') };
  }

  /** Paid vends by payment device and price list, in the order the machine gives them (PA7). */
  get payments(): PaymentLine[] {
    const { block } = this.#read;
    return this.#read.paymentLines(this.#number).map((line) => ({
      device: block.text(line, 2) ?? '',
      list: block.text(line, 3) ?? '',
      price: block.number(line, 4),
      count: block.number(line, 5),
      value: block.number(line, 6),
      intervalCount: block.number(line, 7),
      intervalValue: block.number(line, 8),
      line,
    }));
  }
}
