import {
  ELEMENT,
  type ElementDef,
  type ElementName,
  findElement,
  SEGMENT,
  type SegmentId,
} from '../dictionary/index.js';
import type { Place } from '../findings/index.js';
import { currencyByAlpha, currencyByNumeric, type LocalDateTime, type MachineNumbers } from '../model/index.js';
import { LINE_KIND, type SegmentBlock } from '../segments/index.js';
import { parseAppendedTime } from './appended-time.js';
import { Column } from './column.js';
import { findGluedHeader } from './glued-header.js';
import { type Integrity, judgeIntegrity } from './integrity.js';
import { COLUMN_STRIDE, indexLines, type LineIndex } from './line-index.js';
import { parseMachineDate, parseMachineTime } from './machine-date.js';

/** A number read off a capture, with the place it stands at: what any figure printed later is traced back to. */
export interface Figure extends Place {
  readonly element: ElementName;
  readonly value: number;
}

/** The DXS…DXE around a read, as far as it had come when the read was given out. */
export interface Transmission {
  /** DXS04 as it came; null when there is no DXS or it says nothing. */
  readonly control: string | null;
  readonly hasHeader: boolean;
}

/** What a machine gives of itself; null where it does not. */
export interface MachineIdentity extends MachineNumbers {
  readonly model: string | null;
}

/** Where the pieces of one transaction set lie in its block. */
export interface SetRange {
  readonly block: SegmentBlock;
  /** First line of the set, and the one after its last. */
  readonly from: number;
  readonly to: number;
  /** The DXS line when it stands in the same block right before the set, else -1. */
  readonly dxsLine: number;
  /** Number of the read in its file, from 0. */
  readonly number: number;
  readonly transmission: Transmission | null;
  /** Whether the file ended inside the last line of the set. */
  readonly isLastLineOpen: boolean;
  /** What ended the set: its own SE, another header or trailer, or the end of the file. */
  readonly endedBy: 'SE' | 'header' | 'file';
}

const ST = SEGMENT.ST.index;
const SE = SEGMENT.SE.index;
const G85 = SEGMENT.G85.index;
const { CB101, SE01, SE02, ST02, ID101, ID102, ID106, ID401, ID402, ID403, ID501, ID502, ID503 } = ELEMENT;

/**
 * One read: a transaction set of a capture, its values read on demand from the bytes where they lie.
 *
 * Nothing is guessed: a value that is absent, empty or malformed is null, and null is not zero. Money is in minor units
 * of the capture's own currency.
 */
export class Read {
  readonly number: number;
  readonly block: SegmentBlock;
  readonly range: SetRange;
  readonly index: LineIndex;
  #columns: readonly Column[] | null = null;
  #columnsById: ReadonlyMap<string, Column> | null = null;
  #integrity: Integrity | null = null;
  #isLastOfFile = false;
  #machine: MachineIdentity | null = null;
  #clock: LocalDateTime | null | undefined = undefined;
  #appendedAt: LocalDateTime | null | undefined = undefined;

  constructor(range: SetRange) {
    this.number = range.number;
    this.block = range.block;
    this.range = range;
    this.index = indexLines(range.block, range.from, range.to);
  }

  /** Whether no other read follows in its file: what is said of when a file came is said of that read alone. */
  get isLastOfFile(): boolean {
    return this.#isLastOfFile;
  }

  /** Say that the file ended after it; for the reader of the file alone. */
  markLast(): void {
    this.#isLastOfFile = true;
  }

  /** Whether the set ends with a whole SE. */
  get isComplete(): boolean {
    const line = this.index.single[SE]!;
    if (line < 0) return false;
    // An SE without line ending that does not carry the set's number was cut inside itself.
    const isOpen = this.range.isLastLineOpen && line === this.range.to - 1;
    return !(isOpen && this.text(SE02) !== this.text(ST02));
  }

  /** Segments stated by SE01, and those counted, ST and SE included (ANSI X12). */
  get segments(): { readonly stated: number | null; readonly counted: number } {
    return { stated: this.integer(SE01), counted: this.index.segmentCount };
  }

  /** How the integrity value fits the bytes. */
  get integrity(): Integrity {
    this.#integrity ??= judgeIntegrity({
      block: this.block,
      dxsLine: this.range.dxsLine,
      stLine: this.index.single[ST]!,
      g85Line: this.g85Line,
      lastLine: this.g85Line < 0 ? this.#lineBeforeEnd() : -1,
    });
    return this.#integrity;
  }

  /** The line in the block of G85; of the last one, should there be several. -1 when there is none. */
  get g85Line(): number {
    const again = this.index.misplaced.findLast(({ line }) => this.block.kind(line) === G85);
    return again?.line ?? this.index.single[G85]!;
  }

  /** The last segment before SE, or of all where there is no SE; -1 when there is none. */
  #lineBeforeEnd(): number {
    const se = this.index.single[SE]!;
    let line = (se < 0 ? this.range.to : se) - 1;
    while (line >= this.range.from && this.block.kind(line) < LINE_KIND.unknownSegment) line--;
    return line < this.range.from ? -1 : line;
  }

  /** Asset number, serial number and model as the machine gives them (ID1), and the serial number of its board (CB1). */
  get machine(): MachineIdentity {
    this.#machine ??= {
      asset: this.text(ID106),
      serial: this.text(ID101),
      model: this.text(ID102),
      board: this.text(CB101),
    };
    return this.#machine;
  }

  /** The machine's clock at the read, local and without zone (ID5); null without a whole, existing date and time. */
  get clock(): LocalDateTime | null {
    if (this.#clock === undefined) this.#clock = this.#readClock();
    return this.#clock;
  }

  #readClock(): LocalDateTime | null {
    const time = this.text(ID502);
    const date = time === null ? null : parseMachineDate(this.text(ID501) ?? '');
    const ofDay = date === null ? null : parseMachineTime(time!);
    if (ofDay === null) return null;
    const seconds = time!.length === 4 ? this.integer(ID503) : null;
    const hasSeconds = seconds !== null && seconds >= 0 && seconds < 60;
    return `${date}T${hasSeconds ? ofDay.slice(0, 6) + String(seconds).padStart(2, '0') : ofDay}`;
  }

  /** A date and a time of elements that come once a set; null unless both exist. */
  when(date: ElementName, time: ElementName): LocalDateTime | null {
    const day = parseMachineDate(this.text(date) ?? '');
    const hour = parseMachineTime(this.text(time) ?? '');
    return day === null || hour === null ? null : `${day}T${hour}`;
  }

  /** When a reader took the read, where it appended that to ST; null when it did not. */
  get appendedAt(): LocalDateTime | null {
    if (this.#appendedAt === undefined) this.#appendedAt = this.#readAppendedTime();
    return this.#appendedAt;
  }

  #readAppendedTime(): LocalDateTime | null {
    const line = this.index.single[ST]!;
    if (line < 0 || this.block.elementCount(line) < 3) return null;
    return parseAppendedTime([this.block.text(line, 3) ?? '', this.block.text(line, 4) ?? '']);
  }

  /** The last line in the block that is a segment which came whole; -1 when there is none. */
  get lastWholeLine(): number {
    let line = this.range.to - 1;
    const isGlued = this.range.endedBy === 'header' && findGluedHeader(this.block, line) !== null;
    if (isGlued || this.range.isLastLineOpen) line--;
    while (line >= this.range.from && this.block.kind(line) < LINE_KIND.unknownSegment) line--;
    return line < this.range.from ? -1 : line;
  }

  /** ISO 4217 code of the currency (ID403, else ID402 where it is an ISO number); null when neither says one. */
  get currency(): string | null {
    const alpha = currencyByAlpha(this.text(ID403)?.toUpperCase() ?? '');
    return (alpha ?? currencyByNumeric(this.text(ID402) ?? ''))?.alpha ?? null;
  }

  /** Decimal point position of all money in the read (ID401); null when it is not said or makes no sense. */
  get decimals(): number | null {
    const decimals = this.integer(ID401);
    return decimals !== null && decimals >= 0 && decimals <= 6 ? decimals : null;
  }

  /** The line in the block where a segment first comes; -1 when it does not. For segments that come once. */
  line(id: SegmentId): number {
    return this.index.single[SEGMENT[id].index]!;
  }

  /** Whether the segment is there at all, wherever and however often it may come. */
  has(id: SegmentId): boolean {
    const segment = SEGMENT[id];
    if (segment.occurs === 'once') return this.index.single[segment.index]! >= 0;
    if (segment.occurs === 'many') return this.index.many.some((line) => this.block.kind(line) === segment.index);
    if (id === 'PA7') return this.index.payments.length > 0;
    const slot = segment.index - SEGMENT.PA1.index;
    return this.index.columns.some((line, place) => place % COLUMN_STRIDE === slot && line >= 0);
  }

  /** The lines in the block of a segment that comes any number of times, in order. */
  lines(id: SegmentId): readonly number[] {
    const { index } = SEGMENT[id];
    return this.index.many.filter((line) => this.block.kind(line) === index);
  }

  /** The lines in the block of a column's PA7 segments, in order. Columns are numbered from 0. */
  paymentLines(column: number): readonly number[] {
    const { columns, payments } = this.index;
    const next = (column + 1) * COLUMN_STRIDE;
    const from = firstAfter(payments, columns[column * COLUMN_STRIDE]!);
    return payments.slice(from, next < columns.length ? firstAfter(payments, columns[next]!) : payments.length);
  }

  /**
   * The whole number of an element that comes once a set, money in minor units: null when absent or malformed.
   *
   * @example read.integer('CA302') // money to the cash box since the last reset
   */
  integer(element: ElementName | ElementDef): number | null {
    const definition = typeof element === 'string' ? ELEMENT[element] : element;
    const line = this.index.single[definition.segmentIndex]!;
    return line < 0 ? null : this.block.number(line, definition.position);
  }

  /** The text of an element that comes once a set: null when absent or empty. */
  text(element: ElementName | ElementDef): string | null {
    const definition = typeof element === 'string' ? ELEMENT[element] : element;
    const line = this.index.single[definition.segmentIndex]!;
    return (line < 0 ? null : this.block.text(line, definition.position)) || null;
  }

  /** The number of an element with the place it stands at; null when absent or malformed. */
  figure(element: ElementName | ElementDef): Figure | null {
    const definition = typeof element === 'string' ? ELEMENT[element] : element;
    const value = this.integer(definition);
    return value === null ? null : { ...this.place(definition), element: definition.name, value };
  }

  /** Where an element stands; where it is absent, what can be said of its place. */
  place(element: ElementName | ElementDef): Place {
    const definition = typeof element === 'string' ? ELEMENT[element] : element;
    const line = this.index.single[definition.segmentIndex]!;
    if (line < 0) return { read: this.number, segment: definition.segment, element: definition.name };
    return locate(this, line, definition.position);
  }

  /** How many columns there are. */
  get columnCount(): number {
    return this.index.columns.length / COLUMN_STRIDE;
  }

  /** The columns in the machine's order. */
  get columns(): readonly Column[] {
    this.#columns ??= Array.from({ length: this.columnCount }, (_, number) => new Column(this, number));
    return this.#columns;
  }

  /** The column of that name, or null. */
  column(id: string): Column | null {
    this.#columnsById ??= new Map(this.columns.map((column) => [column.id, column]));
    return this.#columnsById.get(id) ?? null;
  }
}

/** Where the first number above `limit` stands in a rising list. */
function firstAfter(rising: readonly number[], limit: number): number {
  let low = 0;
  let high = rising.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (rising[middle]! > limit) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Where a line of a read, or an element on it, stands in the file. A missing element is placed at its segment. */
export function locate(read: Read, line: number, position?: number): Place {
  const { block } = read;
  const segment = block.id(line);
  const place = { read: read.number, segment, line: block.lineNumber(line) };
  if (position === undefined) return { ...place, offset: block.fileOffset(block.start(line)) };
  const name = `${segment}${String(position).padStart(2, '0')}`;
  const isThere = position <= block.elementCount(line);
  const offset = block.fileOffset(isThere ? block.elementStart(line, position) : block.start(line));
  return { ...place, element: findElement(name)?.name ?? name, offset };
}
