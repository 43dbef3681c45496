import { SEGMENT } from '../dictionary/index.js';
import { type Finding, makeFinding, type Place } from '../findings/index.js';
import { type BlockPart, LINE_KIND, mergeBlocks, type SegmentBlock, SegmentParser } from '../segments/index.js';
import { EnvelopeWatch } from './envelope-watch.js';
import { Read } from './read.js';

const DXS = SEGMENT.DXS.index;
const DXE = SEGMENT.DXE.index;
const ST = SEGMENT.ST.index;
const SE = SEGMENT.SE.index;
const G85 = SEGMENT.G85.index;

/** Longest transaction set taken in whole, in bytes: thousands of times a usual one. */
export const LONGEST_SET = 16 * 1024 * 1024;

/** Options of {@link CaptureReader}. */
export interface CaptureReaderOptions {
  /** Longest segment taken in whole, in bytes. Default 65,536. */
  readonly longestSegment?: number;
  /** Longest set taken in whole, in bytes. Default {@link LONGEST_SET}. */
  readonly longestSet?: number;
}

/** What the file came to as a whole, once it has ended. */
export interface CaptureEnd {
  /** Findings about the file and its envelopes; those about one read come from the checks. */
  readonly findings: readonly Finding[];
  readonly readCount: number;
  readonly byteCount: number;
}

/** Where reads go as soon as they are whole. */
export type ReadSink = (read: Read) => void;

/**
 * Bytes in, reads out: finds transmissions and transaction sets in a file that may hold one, many or none.
 *
 * Holds one set at a time, so memory stays flat. A set that begins without ST, or ends without SE, is given out all the
 * same: its checks say so. Nothing in the file can make it throw.
 *
 * @throws RangeError for limits that are not whole numbers above 0
 */
export class CaptureReader {
  readonly #parser: SegmentParser;
  readonly #longestSet: number;
  readonly #envelope = new EnvelopeWatch();
  #readCount = 0;
  #isSetOpen = false;
  #isSetDropped = false;
  /** What came of the open set in blocks before the present one. */
  #parts: BlockPart[] = [];
  #partBytes = 0;
  /** The DXS line, as long as the line after it may start a set. */
  #header: BlockPart | null = null;
  #isLastLineOpen = false;
  #lastPlace: Place = {};

  constructor(options: CaptureReaderOptions = {}) {
    const longestSet = options.longestSet ?? LONGEST_SET;
    if (!Number.isSafeInteger(longestSet) || longestSet < 1) {
      throw new RangeError(`longestSet must be a whole number above 0, not ${longestSet}`);
    }
    this.#longestSet = longestSet;
    const { longestSegment } = options;
    this.#parser = new SegmentParser(longestSegment === undefined ? {} : { longestSegment });
  }

  /** Take the next bytes of the file; reads that became whole go to `sink`. The chunk must not be changed afterwards. */
  push(chunk: Uint8Array, sink: ReadSink): void {
    this.#envelope.pass(chunk);
    this.#parser.push(chunk, (block) => this.#takeBlock(block, sink));
  }

  /** Say that the file ends here. A set still open goes to `sink` as it is. */
  end(sink: ReadSink): CaptureEnd {
    this.#parser.end((block) => this.#takeBlock(block, sink));
    if (this.#isSetOpen) this.#closeSet(null, sink);
    this.#envelope.end(this.#isLastLineOpen, this.#lastPlace);
    const { findings, byteCount } = this.#envelope;
    return { findings, readCount: this.#readCount, byteCount };
  }

  #takeBlock(block: SegmentBlock, sink: ReadSink): void {
    const { lineCount } = block;
    this.#noteEnding(block, lineCount - 1);
    let setStart = 0;
    for (let line = 0; line < lineCount; line++) {
      const kind = block.kind(line);
      if (this.#isSetOpen) {
        if (kind === SE) {
          this.#closeSet({ block, from: setStart, to: line + 1 }, sink);
          continue;
        }
        if (kind !== ST && kind !== DXS && kind !== DXE) continue;
        this.#closeSet({ block, from: setStart, to: line }, sink);
      }
      if (this.#takeOutside(block, line, kind)) setStart = line;
    }
    if (this.#isSetOpen) this.#keep({ block, from: setStart, to: lineCount });
  }

  /** Take a line outside the sets. Says whether it starts one. */
  #takeOutside(block: SegmentBlock, line: number, kind: number): boolean {
    if (kind === DXS) {
      this.#envelope.header(block, line);
      this.#header = { block, from: line, to: line + 1 };
    } else if (kind === DXE) {
      this.#envelope.trailer(block, line);
    } else if (kind >= 0 && kind !== SE && kind !== G85) {
      // A data segment with no ST before it starts a set too: the head of the capture is missing, not the whole of it.
      this.#isSetOpen = true;
      this.#isSetDropped = false;
      return true;
    } else {
      this.#envelope.other(block, line);
    }
    return false;
  }

  #keep(part: BlockPart): void {
    this.#partBytes += part.block.next(part.to - 1) - part.block.start(part.from);
    if (this.#partBytes <= this.#longestSet) {
      this.#parts.push(part);
    } else if (!this.#isSetDropped) {
      this.#isSetDropped = true;
      const at = this.#parts[0] ?? part;
      this.#envelope.findings.push(
        makeFinding('overlong-set', `A set is longer than ${this.#longestSet} bytes; it was not read.`, {
          segment: at.block.id(at.from),
          line: at.block.lineNumber(at.from),
          offset: at.block.fileOffset(at.block.start(at.from)),
          advice: 'Check that this is the right file.',
        }),
      );
      this.#parts = [];
    }
  }

  #closeSet(lastPart: BlockPart | null, sink: ReadSink): void {
    this.#isSetOpen = false;
    if (lastPart !== null && lastPart.to > lastPart.from) this.#keep(lastPart);
    const parts = this.#parts;
    const header = this.#header;
    this.#parts = [];
    this.#partBytes = 0;
    this.#header = null;
    if (this.#isSetDropped || parts.length === 0) return;
    const range = joinParts(parts, header);
    const read = new Read({
      ...range,
      number: this.#readCount++,
      transmission: this.#envelope.transmission,
      isLastLineOpen: this.#isLastLineOpen,
    });
    this.#envelope.set(range.block, range.from, read.number, read.isComplete);
    sink(read);
  }

  #noteEnding(block: SegmentBlock, last: number): void {
    this.#isLastLineOpen = block.endingStart(last) === block.next(last) && block.kind(last) !== LINE_KIND.padding;
    this.#lastPlace = { line: block.lineNumber(last), offset: block.fileOffset(block.start(last)) };
  }
}

/** The set in one block: where it lies when that is one already, with the DXS line right before it, if there is one. */
function joinParts(
  parts: readonly BlockPart[],
  header: BlockPart | null,
): { block: SegmentBlock; from: number; to: number; dxsLine: number } {
  const first = parts[0]!;
  const isHeaderNext =
    header !== null && header.block.lineNumber(header.from) + 1 === first.block.lineNumber(first.from);
  if (parts.length === 1 && (!isHeaderNext || header.block === first.block)) {
    return { ...first, dxsLine: isHeaderNext ? header.from : -1 };
  }
  const block = mergeBlocks(isHeaderNext ? [header, ...parts] : parts);
  return { block, from: isHeaderNext ? 1 : 0, to: block.lineCount, dxsLine: isHeaderNext ? 0 : -1 };
}
