import { type Finding, makeFinding, type Place, printable } from '../findings/index.js';
import { LINE_KIND, type SegmentBlock } from '../segments/index.js';
import type { Transmission } from './read.js';
import { SNIFFED_BYTES, sniffContent } from './sniff-content.js';

const READ_AGAIN = 'Read the machine again and keep this file as it is.';

interface OpenTransmission extends Transmission {
  readonly place: Place;
  /** Whether the last set in it was whole: a cut set says so itself. */
  isLastSetWhole: boolean;
  setCount: number;
}

/** Watches what stands outside the sets of a file: headers and trailers, junk, padding, how it ends. */
export class EnvelopeWatch {
  readonly findings: Finding[] = [];
  #open: OpenTransmission | null = null;
  #hasEnvelope = false;
  #bareSets: Place | null = null;
  #junk: { place: Place; sample: string; lines: number } | null = null;
  #padding: Place | null = null;
  #setCount = 0;
  #head = new Uint8Array(0);
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
    if (this.#byteCount < SNIFFED_BYTES) {
      const wanted = chunk.subarray(0, SNIFFED_BYTES - this.#byteCount);
      const head = new Uint8Array(this.#head.length + wanted.length);
      head.set(this.#head);
      head.set(wanted, this.#head.length);
      this.#head = head;
    }
    this.#byteCount += chunk.length;
  }

  /** A DXS line. */
  header(block: SegmentBlock, line: number): void {
    this.#reportJunk();
    this.#endUnfinished();
    this.#hasEnvelope = true;
    const control = block.text(line, 4) || null;
    this.#open = { control, hasHeader: true, place: placeOf(block, line), isLastSetWhole: true, setCount: 0 };
  }

  /** A DXE line. */
  trailer(block: SegmentBlock, line: number): void {
    this.#hasEnvelope = true;
    const place = placeOf(block, line);
    const open = this.#open;
    if (open === null) {
      this.findings.push(makeFinding('envelope-missing', 'There is a DXE without a DXS before it.', place));
      return;
    }
    this.#open = null;
    const control = block.text(line, 1) || null;
    if (!isSameNumber(control, open.control)) {
      this.findings.push(
        makeFinding('control-number', 'The transmission number at the end is not the one at the start.', {
          ...place,
          element: 'DXE01',
          expected: printable(open.control ?? 'nothing'),
          received: printable(control ?? 'nothing'),
        }),
      );
    }
    const stated = block.number(line, 2);
    if (stated !== open.setCount) {
      this.findings.push(
        makeFinding(
          'set-count',
          `DXE says ${stated ?? 'nothing'} for the number of sets; ${open.setCount} came${stated !== null && stated > open.setCount ? ', so a read is missing' : ''}.`,
          { ...place, element: 'DXE02', expected: String(open.setCount), received: String(stated ?? 'nothing') },
        ),
      );
    }
  }

  /** A set was given out. */
  set(block: SegmentBlock, line: number, read: number, isWhole: boolean): void {
    this.#reportJunk();
    this.#setCount++;
    if (this.#open !== null) {
      this.#open.setCount++;
      this.#open.isLastSetWhole = isWhole;
    } else if (isWhole) {
      this.#bareSets ??= { ...placeOf(block, line), read };
    }
  }

  /** A line that is no part of a set or envelope. */
  other(block: SegmentBlock, line: number): void {
    const kind = block.kind(line);
    if (kind === LINE_KIND.blank) return;
    if (kind === LINE_KIND.padding) {
      this.#padding ??= placeOf(block, line);
      return;
    }
    if (this.#junk === null) {
      const sample = block.bytes.subarray(block.start(line), block.contentEnd(line));
      this.#junk = { place: placeOf(block, line), sample: textOf(sample), lines: 1 };
    } else {
      this.#junk.lines++;
    }
  }

  /** The file has ended. */
  end(isLastLineOpen: boolean, lastPlace: Place): void {
    this.#endUnfinished();
    if (this.#setCount === 0 && !this.#hasEnvelope) {
      this.findings.push(this.#describeNoCapture());
      return;
    }
    this.#reportJunk();
    if (this.#bareSets !== null && !this.#hasEnvelope) {
      this.findings.push(
        makeFinding(
          'envelope-missing',
          'There is no DXS and DXE around the set; the set itself is whole.',
          this.#bareSets,
        ),
      );
    }
    if (this.#padding !== null) {
      this.findings.push(makeFinding('padding', 'Filler bytes (NUL or 1Ah) stand after the capture.', this.#padding));
    }
    if (isLastLineOpen) {
      this.findings.push(
        makeFinding('last-line-open', 'Only the last line ending is missing; nothing else is.', lastPlace),
      );
    }
  }

  #endUnfinished(): void {
    const open = this.#open;
    if (open === null) return;
    this.#open = null;
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
    const lines = junk.lines === 1 ? 'One line is' : `${junk.lines} lines are`;
    const isBefore = this.#setCount === 0;
    this.findings.push(
      makeFinding(
        isBefore ? 'junk-before' : 'junk-between',
        `${lines} no part of the capture and passed over; the first reads "${printable(junk.sample, 40)}".`,
        junk.place,
      ),
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

function placeOf(block: SegmentBlock, line: number): Place {
  const place = { line: block.lineNumber(line), offset: block.fileOffset(block.start(line)) };
  return block.kind(line) >= 0 ? { segment: block.id(line), ...place } : place;
}

/** The first characters of a line; more is never shown. */
function textOf(bytes: Uint8Array): string {
  return String.fromCharCode(...bytes.subarray(0, 80));
}

/** Control numbers are numbers (`1`) that some readers pad (`0001`); a missing one on both sides is no difference. */
function isSameNumber(a: string | null, b: string | null): boolean {
  if (a === b) return true;
  return a !== null && b !== null && /^\d+$/.test(a) && /^\d+$/.test(b) && Number(a) === Number(b);
}
