import { SEGMENT, SEGMENTS } from '../dictionary/index.js';
import { type Finding, makeFinding } from '../findings/index.js';
import { type BlockPart, LINE_KIND, mergeBlocks, type SegmentBlock, SegmentParser } from '../segments/index.js';
import { KIND_SHIFT, ROW } from '../segments/line-table.js';
import { EnvelopeWatch } from './envelope-watch.js';
import { findGluedHeader, type GluedHeader, rebuildSet } from './glued-header.js';
import { Read, type SetRange } from './read.js';
import { type CaptureReaderOptions, withDefaults } from './reader-options.js';

const DXS = SEGMENT.DXS.index;
const DXE = SEGMENT.DXE.index;
const ST = SEGMENT.ST.index;
const SE = SEGMENT.SE.index;
const G85 = SEGMENT.G85.index;
const ID1 = SEGMENT.ID1.index;
const PA1_KEPT = SEGMENT.PA1.index + KIND_SHIFT;
/** Segments that may end a set or start the next. */
const BORDERS = [DXS, DXE, ST, SE, ID1];
/** By the kind of a line as the table of lines keeps it. */
const IS_BORDER = new Uint8Array(SEGMENTS.length + KIND_SHIFT);
for (const kind of BORDERS) IS_BORDER[kind + KIND_SHIFT] = 1;

/** What the file came to as a whole, once it has ended. */
export interface CaptureEnd {
  /** Findings about the file and its envelopes; those about one read come from the checks. */
  readonly findings: readonly Finding[];
  readonly readCount: number;
  readonly byteCount: number;
}

/** Where reads go as soon as they are whole and it is known whether another follows in the file. */
export type ReadSink = (read: Read) => void;

/** The set that is being gathered. */
interface OpenSet {
  /** What came of it in blocks before the present one. */
  readonly parts: BlockPart[];
  byteCount: number;
  lineCount: number;
  columnCount: number;
  hasIdentity: boolean;
  isDropped: boolean;
  /** The DXS line, when it stands right before the set. */
  readonly header: BlockPart | null;
  /** Its ST, when that does not stand at the start of a line. */
  readonly gluedStart: GluedHeader | null;
}

/**
 * Bytes in, reads out: finds transmissions and transaction sets in a file that may hold one, many or none.
 *
 * Holds one set at a time, and the read before it, so memory stays flat. A set that begins without ST, or ends without SE, is given out all the
 * same: its checks say so. Nothing in the file can make it throw.
 *
 * @throws RangeError for limits that are not whole numbers above 0
 */
export class CaptureReader {
  readonly #parser: SegmentParser;
  readonly #longestSet: number;
  readonly #mostColumns: number;
  readonly #mostLines: number;
  readonly #longestSegment: number;
  readonly #envelope = new EnvelopeWatch();
  #readCount = 0;
  #nextNumber = 0;
  #set: OpenSet | null = null;
  /** The last read that became whole: it is given out when it is known whether another follows. */
  #ready: Read | null = null;
  /** The line before the present one. */
  #before: { readonly block: SegmentBlock; readonly line: number } | null = null;
  #isLastLineOpen = false;

  constructor(options: CaptureReaderOptions = {}) {
    const { longestSegment, longestSet, mostColumns, mostLines } = withDefaults(options);
    this.#longestSet = longestSet;
    this.#mostColumns = mostColumns;
    this.#mostLines = mostLines;
    this.#longestSegment = longestSegment;
    const { startAt } = options;
    this.#parser = new SegmentParser({ longestSegment, ...(startAt && { startAt }) });
    this.#nextNumber = startAt?.number ?? 0;
  }

  /** Take the next bytes of the file; reads that became whole go to `sink`. The chunk must not be changed afterwards. */
  push(chunk: Uint8Array, sink: ReadSink): void {
    this.#envelope.pass(chunk);
    this.#parser.push(chunk, (block) => this.#takeBlock(block, sink));
  }

  /** Say that the file ends here. A set still open goes to `sink` as it is. */
  end(sink: ReadSink): CaptureEnd {
    this.#parser.end((block) => this.#takeBlock(block, sink));
    if (this.#set !== null) this.#closeSet(this.#set, null, 'file', sink);
    this.#ready?.markLast();
    this.breakOff(sink);
    this.#envelope.end(this.#isLastLineOpen, this.#before);
    const { findings, byteCount } = this.#envelope;
    return { findings: findings.list(), readCount: this.#readCount, byteCount };
  }

  /** Say that no more bytes come though the file goes on, as when it can not be read any further: what is whole goes to `sink`. */
  breakOff(sink: ReadSink): void {
    const ready = this.#ready;
    this.#ready = null;
    if (ready !== null) sink(ready);
  }

  #takeBlock(block: SegmentBlock, sink: ReadSink): void {
    const { lineCount } = block;
    const last = lineCount - 1;
    this.#isLastLineOpen = block.endingStart(last) === block.next(last) && block.kind(last) !== LINE_KIND.padding;
    let from = 0;
    for (let line = 0; line < lineCount; line++) {
      if (this.#set === null) {
        if (this.#startSet(block, line, block.kind(line))) from = line;
      } else {
        line = findBorder(block, line);
        if (line < lineCount) from = this.#borderSet(block, from, line, block.kind(line), sink);
      }
    }
    if (this.#set !== null) this.#keep(this.#set, { block, from, to: lineCount });
    this.#before = { block, line: last };
  }

  /** Take a line that may end the open set or start the next. Gives the line the set now open begins with. */
  #borderSet(block: SegmentBlock, from: number, line: number, kind: number, sink: ReadSink): number {
    const set = this.#set!;
    if (kind === ID1) {
      const glued = set.hasIdentity ? this.#gluedBefore(block, line, 'ST') : null;
      set.hasIdentity = true;
      if (glued === null) return from;
      // Two sets that ran into each other: the second one's ST hangs on the last line of the first.
      this.#closeSet(set, { block, from, to: line }, 'header', sink);
      this.#openSet(null, glued);
      return line;
    }
    const isWhole = kind === SE;
    this.#closeSet(set, { block, from, to: isWhole ? line + 1 : line }, isWhole ? 'SE' : 'header', sink);
    return !isWhole && this.#startSet(block, line, kind, true) ? line : from;
  }

  /** Take a line outside the sets, or one that ended the set before it. Says whether it starts a set. */
  #startSet(block: SegmentBlock, line: number, kind: number, isAfterCut = false): boolean {
    const envelope = this.#envelope;
    if (kind === ST) {
      this.#openSet(this.#headerBefore(block, line, isAfterCut), null);
      return true;
    }
    if (kind === DXS) {
      envelope.header(block, line, block.text(line, 4) || null);
    } else if (kind === DXE) {
      envelope.trailer(block, line);
    } else if (kind >= 0 && kind !== SE && kind !== G85) {
      // A data segment with no ST before it starts a set too: the head of the capture is missing, not the whole of it.
      this.#openSet(null, this.#gluedBefore(block, line, 'ST'));
      this.#set!.hasIdentity = kind === ID1;
      return true;
    } else {
      this.#passOver(block, line, kind);
    }
    return false;
  }

  /** A line that is no part of anything, unless a header hangs on it. */
  #passOver(block: SegmentBlock, line: number, kind: number): void {
    const glued = kind === LINE_KIND.unknownSegment ? findGluedHeader(block, line) : null;
    this.#envelope.other(block, line, glued?.index ?? block.contentEnd(line));
    if (glued?.segment === 'DXS') this.#envelope.header(block, line, glued.control);
  }

  /** The DXS line right before an ST. A DXS that hangs on the line before was not seen yet: it is told now. */
  #headerBefore(block: SegmentBlock, line: number, isAfterCut: boolean): BlockPart | null {
    const before = this.#lineBefore(block, line);
    if (before === null) return null;
    const kind = before.block.kind(before.line);
    if (kind === DXS) return { block: before.block, from: before.line, to: before.line + 1 };
    // Unknown lines outside the sets were looked through when they were passed over.
    if (kind >= 0 || isAfterCut) {
      const glued = this.#gluedBefore(block, line, 'DXS');
      if (glued !== null) this.#envelope.header(glued.block, glued.line, glued.control);
    }
    return null;
  }

  #lineBefore(block: SegmentBlock, line: number): { readonly block: SegmentBlock; readonly line: number } | null {
    return line > 0 ? { block, line: line - 1 } : this.#before;
  }

  #gluedBefore(block: SegmentBlock, line: number, segment: 'DXS' | 'ST'): GluedHeader | null {
    const before = this.#lineBefore(block, line);
    const glued = before === null ? null : findGluedHeader(before.block, before.line);
    if (glued?.segment !== segment) return null;
    const kind = glued.block.kind(glued.line);
    if (kind === SE || kind === DXE) this.#envelope.joined(glued.block, glued.line);
    return glued;
  }

  #openSet(header: BlockPart | null, gluedStart: GluedHeader | null): void {
    const counts = { byteCount: 0, lineCount: 0, columnCount: 0 };
    this.#set = { parts: [], ...counts, hasIdentity: gluedStart !== null, isDropped: false, header, gluedStart };
  }

  #keep(set: OpenSet, part: BlockPart): void {
    set.byteCount += part.block.next(part.to - 1) - part.block.start(part.from);
    if (set.isDropped) return;
    set.lineCount += part.to - part.from;
    set.columnCount += countColumns(part);
    const excess = this.#excessOf(set);
    if (excess === null) {
      set.parts.push(part);
      return;
    }
    set.isDropped = true;
    const { block, from } = set.parts[0] ?? part;
    this.#envelope.findings.push(
      makeFinding('overlong-set', `A set ${excess}; it was not read.`, {
        segment: block.id(from),
        line: block.lineNumber(from),
        offset: block.fileOffset(block.start(from)),
        advice: 'Check that this is the right file.',
      }),
    );
    set.parts.length = 0;
  }

  /** Which limit a set is over; null when it is within all of them. */
  #excessOf({ byteCount, lineCount, columnCount }: OpenSet): string | null {
    if (byteCount > this.#longestSet) return `is longer than ${this.#longestSet} bytes`;
    if (columnCount > this.#mostColumns) return `has more than ${this.#mostColumns} columns`;
    return lineCount > this.#mostLines ? `has more than ${this.#mostLines} lines` : null;
  }

  #closeSet(set: OpenSet, lastPart: BlockPart | null, endedBy: SetRange['endedBy'], sink: ReadSink): void {
    this.#set = null;
    if (lastPart !== null && lastPart.to > lastPart.from) this.#keep(set, lastPart);
    if (set.isDropped) {
      this.#envelope.dropSet();
      // Its number stays its own: books have reads from before there were limits of columns and lines.
      if (set.byteCount <= this.#longestSet) this.#nextNumber++;
      return;
    }
    const { block, from, to, dxsLine } = joinParts(set, this.#longestSegment);
    const { transmission } = this.#envelope;
    const number = this.#nextNumber++;
    this.#readCount++;
    const isLastLineOpen = this.#isLastLineOpen && (lastPart === null || lastPart.to === lastPart.block.lineCount);
    const read = new Read({ block, from, to, dxsLine, number, transmission, isLastLineOpen, endedBy });
    this.#envelope.set(block, from, number, read.isComplete);
    this.breakOff(sink);
    this.#ready = read;
  }
}

/** The next line, from one on, that may end a set or start the next; after the last line when there is none. */
function findBorder(block: SegmentBlock, from: number): number {
  const { lineCount } = block;
  const { table } = block.parts;
  let line = from;
  while (line < lineCount && IS_BORDER[table[line * ROW.size + ROW.kind]!] === 0) line++;
  return line;
}

function countColumns({ block, from, to }: BlockPart): number {
  const { table } = block.parts;
  let count = 0;
  for (let line = from; line < to; line++) if (table[line * ROW.size + ROW.kind] === PA1_KEPT) count++;
  return count;
}

/** The set in one block: where it lies when that is one already, with the DXS line right before it, if there is one. */
function joinParts(set: OpenSet, longestSegment: number): BlockPart & { readonly dxsLine: number } {
  const { parts, header, gluedStart } = set;
  const first = parts[0]!;
  if (gluedStart !== null) {
    const block = rebuildSet(gluedStart, parts, longestSegment);
    return { block, from: 0, to: block.lineCount, dxsLine: -1 };
  }
  if (parts.length === 1 && (header === null || header.block === first.block)) {
    return { block: first.block, from: first.from, to: first.to, dxsLine: header?.from ?? -1 };
  }
  const block = mergeBlocks(header === null ? parts : [header, ...parts]);
  return { block, from: header === null ? 0 : 1, to: block.lineCount, dxsLine: header === null ? -1 : 0 };
}
