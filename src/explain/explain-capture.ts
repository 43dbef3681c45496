import { type CaptureCircumstances, resolveRead } from '../checks/resolve-read.js';
import { type CaptureEnd, CaptureReader, type Integrity, type Read } from '../read/index.js';
import { type SegmentBlock, SegmentParser } from '../segments/index.js';
import { type ExplainedSegment, explainSegment, type SegmentSetting } from './explain-segment.js';

/** Where explained segments go, in the order of the file. */
export type ExplainedSink = (segment: ExplainedSegment) => void;

/** Lines that wait for the set they may be in; above this they are given out without it, so that memory stays flat. */
const MOST_WAITING = 100_000;
const OUTSIDE: SegmentSetting = {
  currency: null,
  decimals: null,
  profile: null,
  read: null,
  column: null,
  remark: null,
};

const INTEGRITY_WORDS: Readonly<Record<Integrity['state'], string>> = {
  exact: 'fits the bytes exactly',
  'byte-swapped': 'fits the bytes, written low byte first as older levels do',
  'line-endings': 'fits once CR LF endings are restored: changed on the way, content whole',
  'range-variant': 'fits over a range of its own',
  damaged: 'does not fit the bytes: the capture was damaged',
  absent: 'is no value that could be held against the bytes',
};

/**
 * Puts a capture in words as its bytes come in: every segment, also those outside the sets and those nobody knows.
 *
 * The amounts of a set are in its own currency and decimals, which may stand behind them; so the segments of a set are
 * given out once it is whole. Memory stays flat.
 */
export class CaptureExplainer {
  readonly #file: string;
  readonly #circumstances: CaptureCircumstances;
  // Two readers of the same bytes: one finds the sets, the other every line, those outside the sets included.
  readonly #reader = new CaptureReader();
  readonly #parser = new SegmentParser();
  #waiting: { readonly block: SegmentBlock; readonly line: number }[] = [];
  /** How many of the waiting lines, from the first, were given out already. */
  #given = 0;

  constructor(file: string, circumstances: CaptureCircumstances) {
    this.#file = file;
    this.#circumstances = circumstances;
  }

  /** Take the next bytes of the file. */
  push(chunk: Uint8Array, sink: ExplainedSink): void {
    this.#parser.push(chunk, (block) => this.#wait(block));
    this.#reader.push(chunk, (read) => this.#explainRead(read, sink));
    if (this.#waiting.length - this.#given > MOST_WAITING) {
      this.#reader.breakOff((read) => this.#explainRead(read, sink));
      this.#explainOutside(Number.POSITIVE_INFINITY, sink);
    }
    this.#waiting = this.#waiting.slice(this.#given);
    this.#given = 0;
  }

  /** Say that the file ends here. */
  end(sink: ExplainedSink): CaptureEnd {
    this.#parser.end((block) => this.#wait(block));
    const end = this.#reader.end((read) => this.#explainRead(read, sink));
    this.#explainOutside(Number.POSITIVE_INFINITY, sink);
    return end;
  }

  #wait(block: SegmentBlock): void {
    for (let line = 0; line < block.lineCount; line++) this.#waiting.push({ block, line });
  }

  #explainRead(read: Read, sink: ExplainedSink): void {
    const { block, range } = read;
    this.#explainOutside(block.lineNumber(range.from), sink);
    const { currency, decimals, profile } = resolveRead(this.#file, read, this.#circumstances);
    let column: string | null = null;
    for (let line = range.from; line < range.to; line++) {
      const segment = block.segment(line);
      if (segment === null) continue;
      if (segment.id === 'PA1') column = segment.elements[0] ?? null;
      else if (!segment.id.startsWith('PA')) column = null;
      const remark = remarkOn(segment.id, read);
      sink(explainSegment(segment, { currency, decimals, profile, read: read.number, column, remark }));
    }
    const next = block.lineNumber(range.to - 1) + 1;
    while (this.#isWaitingBefore(next)) this.#given++;
  }

  /** Give out the waiting lines before a line number, as they are. */
  #explainOutside(before: number, sink: ExplainedSink): void {
    for (; this.#isWaitingBefore(before); this.#given++) {
      const { block, line } = this.#waiting[this.#given]!;
      const segment = block.segment(line);
      if (segment !== null) sink(explainSegment(segment, OUTSIDE));
    }
  }

  #isWaitingBefore(before: number): boolean {
    const next = this.#waiting[this.#given];
    return next !== undefined && next.block.lineNumber(next.line) < before;
  }
}

/** A whole capture in words. See {@link CaptureExplainer}. */
export function explainCapture(
  file: string,
  bytes: Uint8Array,
  circumstances: CaptureCircumstances,
): ExplainedSegment[] {
  const explained: ExplainedSegment[] = [];
  const keep = (segment: ExplainedSegment): void => {
    explained.push(segment);
  };
  const explainer = new CaptureExplainer(file, circumstances);
  explainer.push(bytes, keep);
  explainer.end(keep);
  return explained;
}

function remarkOn(id: string, read: Read): string | null {
  if (id === 'G85') return INTEGRITY_WORDS[read.integrity.state];
  if (id === 'SE') return `${read.segments.counted} segments counted`;
  return null;
}
