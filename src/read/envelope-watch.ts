import { decodeLatin1 } from '../bytes/index.js';
import { type Finding, makeFinding, type Place, printable } from '../findings/index.js';
import { LINE_KIND, type SegmentBlock } from '../segments/index.js';
import { LimitedFindings } from './limited-findings.js';
import type { Transmission } from './read.js';
import { isSameNumber } from './same-number.js';
import { SNIFFED_BYTES, sniffContent } from './sniff-content.js';

const READ_AGAIN = 'Read the machine again and keep this file as it is.';
const BYTE_ORDER_MARK = '\u00ef\u00bb\u00bf';
/** A transmission header behind a trailer, with filler or a byte order mark between them. */
const GLUED_HEADER = /(?:[\0\u001a]|\u00ef\u00bb\u00bf)*DXS$/;

interface OpenTransmission extends Transmission {
  readonly place: Place;
  /** Whether the last set in it was whole: a cut set says so itself. */
  isLastSetWhole: boolean;
  setCount: number;
}

/** Watches what stands outside the sets of a file: headers and trailers, junk, padding, how it ends. */
export class EnvelopeWatch {
  readonly findings = new LimitedFindings();
  #open: OpenTransmission | null = null;
  /** A whole set outside any transmission that nothing was said of yet. */
  #bareSet: Place | null = null;
  #isBareSetNoted = false;
  #junk: { place: Place; sample: string; lines: number } | null = null;
  #padding: Place | null = null;
  #setCount = 0;
  #hasHeader = false;
  /** Whether the last line that counts ended what it should end: a trailer that fits, or a whole set without envelope. */
  #isWhole = false;
  #head: Uint8Array = new Uint8Array(0);
  #byteCount = 0;

  /** The transmission that is open, as a read carries it. */
  get transmission(): Transmission | null {
    return this.#open;
  }

  get byteCount(): number {
    return this.#byteCount;
  }

  /** Bytes of the file passed. */
  pass(chunk: Uint8Array): void {
    const missing = SNIFFED_BYTES - this.#byteCount;
    this.#byteCount += chunk.length;
    if (missing <= 0) return;
    const wanted = chunk.subarray(0, missing);
    this.#head = this.#head.length === 0 ? wanted : Uint8Array.from([...this.#head, ...wanted]);
  }

  /** A DXS. */
  header(block: SegmentBlock, line: number, control: string | null): void {
    this.#settle();
    this.#hasHeader = true;
    const place = { ...placeOf(block, line), segment: 'DXS' };
    this.#open = { control, hasHeader: true, place, isLastSetWhole: true, setCount: 0 };
  }

  /** A DXE line. */
  trailer(block: SegmentBlock, line: number): void {
    const place = placeOf(block, line);
    const open = this.#open;
    if (open === null) {
      this.findings.push(makeFinding('envelope-missing', 'There is a DXE without a DXS before it.', place));
      this.#bareSet = null;
      this.#isWhole = this.#setCount > 0;
      return;
    }
    this.#open = null;
    if (open.setCount === 0) {
      this.findings.push(
        makeFinding('missing-segment', 'There is nothing between DXS and DXE: no read is in this transmission.', {
          ...open.place,
          severity: 'fault',
          expected: 'ST',
          advice: READ_AGAIN,
        }),
      );
    }
    const control = block.text(line, 1) || null;
    const isSameControl = isSameNumber(control, open.control);
    if (!isSameControl) {
      this.findings.push(
        makeFinding('control-number', 'The transmission number at the end is not the one at the start.', {
          ...place,
          element: 'DXE01',
          expected: printable(open.control ?? 'nothing', 40),
          received: printable(control ?? 'nothing', 40),
          advice: 'Check that no part of the file is missing or comes from another read.',
        }),
      );
    }
    this.#isWhole = this.#checkSetCount(block, line, open.setCount) && isSameControl;
  }

  #checkSetCount(block: SegmentBlock, line: number, counted: number): boolean {
    if (block.number(line, 2) === counted) return true;
    // A header of the next file may hang on this line (see findGluedHeader).
    const text = (block.text(line, 2) ?? '').replace(GLUED_HEADER, '');
    if (/^\d+$/.test(text) && Number(text) === counted) return true;
    const stated = text === '' ? 'nothing' : printable(text, 20);
    const isMissing = /^\d+$/.test(text) && Number(text) > counted;
    this.findings.push(
      makeFinding(
        'set-count',
        `DXE says ${stated} for the number of sets; ${counted} came${isMissing ? ', so a read is missing' : ''}.`,
        {
          ...placeOf(block, line),
          element: 'DXE02',
          expected: String(counted),
          received: stated,
          advice: READ_AGAIN,
        },
      ),
    );
    return false;
  }

  /** A set was given out. */
  set(block: SegmentBlock, line: number, read: number, isWhole: boolean): void {
    this.#reportJunk();
    this.#setCount++;
    this.#isWhole = false;
    if (this.#open !== null) {
      this.#open.setCount++;
      this.#open.isLastSetWhole = isWhole;
    } else if (isWhole) {
      this.#isWhole = true;
      if (!this.#isBareSetNoted) this.#bareSet ??= { ...placeOf(block, line), read };
    }
  }

  /** A set was there, but not taken in. What is wrong with it was said. */
  dropSet(): void {
    this.#setCount++;
    if (this.#open !== null) this.#open.setCount++;
  }

  /** A header hangs on a line that ended something: only the line ending between the two is missing. */
  joined(block: SegmentBlock, line: number): void {
    this.findings.push(
      makeFinding(
        'last-line-open',
        'The line ending between one capture and the next is missing; nothing else is.',
        placeOf(block, line),
      ),
    );
  }

  /** A line that is no part of a set or envelope; what counts of it ends at an index. */
  other(block: SegmentBlock, line: number, end: number): void {
    const kind = block.kind(line);
    if (kind === LINE_KIND.blank) return;
    if (kind === LINE_KIND.padding || isFiller(block, line, end)) {
      this.#padding ??= placeOf(block, line);
      return;
    }
    this.#isWhole = false;
    if (this.#junk === null) {
      const start = block.start(line);
      // More than a few characters are never shown.
      const sample = decodeLatin1(block.bytes, start, Math.min(end, start + 80));
      this.#junk = { place: placeOf(block, line), sample, lines: 1 };
    } else {
      this.#junk.lines++;
    }
  }

  /** The file has ended; `last` is its last line, or null when there was none. */
  end(isLastLineOpen: boolean, last: { readonly block: SegmentBlock; readonly line: number } | null): void {
    if (this.#setCount === 0 && !this.#hasHeader) {
      this.findings.push(this.#describeNoCapture());
      return;
    }
    this.#settle();
    if (this.#padding !== null) {
      this.findings.push(makeFinding('padding', 'Filler bytes (NUL or 1Ah) stand after the capture.', this.#padding));
    }
    if (isLastLineOpen && this.#isWhole) {
      const place = placeOf(last!.block, last!.line);
      this.findings.push(
        makeFinding('last-line-open', 'Only the last line ending is missing; nothing else is.', place),
      );
    }
  }

  /** Say what is to be said of everything before a new header, or the end of the file. */
  #settle(): void {
    this.#reportJunk();
    const open = this.#open;
    this.#open = null;
    if (open !== null) this.#reportUnfinished(open);
    if (this.#bareSet === null) return;
    this.findings.push(
      makeFinding(
        'envelope-missing',
        'There is no DXS and DXE around the set; the set itself is whole.',
        this.#bareSet,
      ),
    );
    this.#bareSet = null;
    this.#isBareSetNoted = true;
  }

  #reportUnfinished(open: OpenTransmission): void {
    if (open.setCount === 0) {
      this.findings.push(
        makeFinding('cut-short', 'The file ends, or starts again, right after its header DXS: no read is in it.', {
          ...open.place,
          severity: 'fault',
          advice: READ_AGAIN,
        }),
      );
    } else if (open.isLastSetWhole) {
      this.findings.push(
        makeFinding(
          'cut-short',
          'The trailer DXE is missing. The read before it is whole, but another could have followed.',
          { ...open.place, severity: 'doubt', advice: 'Read the machine again if you are still at it.' },
        ),
      );
    }
  }

  #reportJunk(): void {
    const junk = this.#junk;
    if (junk === null) return;
    this.#junk = null;
    this.findings.push(
      makeFinding(this.#setCount === 0 ? 'junk-before' : 'junk-between', describeJunk(junk), junk.place),
    );
  }

  #describeNoCapture(): Finding {
    if (this.#byteCount === 0) {
      return makeFinding('empty-file', 'The file is empty (0 bytes).', { advice: READ_AGAIN });
    }
    return makeFinding(
      'not-a-capture',
      `Nothing in this file is a capture: it looks like ${sniffContent(this.#head)}.`,
      {
        expected: 'segments from ST to SE',
        advice: 'Check that this is the right file.',
      },
    );
  }
}

function describeJunk({ sample, lines }: { readonly sample: string; readonly lines: number }): string {
  if (sample === BYTE_ORDER_MARK && lines === 1) return 'A byte order mark (UTF-8) stands before the capture.';
  const subject = lines === 1 ? 'One line is' : `${lines} lines are`;
  return `${subject} no part of the capture and passed over; the first reads "${printable(sample, 40)}".`;
}

/** Whether a line has nothing but NUL and 1Ah before an index. */
function isFiller(block: SegmentBlock, line: number, end: number): boolean {
  return block.bytes.subarray(block.start(line), end).every((byte) => byte === 0 || byte === 0x1a);
}

function placeOf(block: SegmentBlock, line: number): Place {
  const place = { line: block.lineNumber(line), offset: block.fileOffset(block.start(line)) };
  return block.kind(line) >= 0 ? { segment: block.id(line), ...place } : place;
}
