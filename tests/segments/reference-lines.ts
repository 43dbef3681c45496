import { SEGMENT, SEGMENTS } from '../../src/dictionary/index.js';
import { LINE_KIND, type SegmentBlock } from '../../src/segments/index.js';
import { crc16Bitwise } from '../support/crc16-bitwise.js';
import { textOf } from '../support/latin1-bytes.js';

/** Everything there is to know of one line, with places in the file, so that it is the same however blocks fall. */
export interface LineFacts {
  readonly line: number;
  readonly kind: number;
  readonly id: string;
  readonly elements: readonly string[];
  readonly elementOffsets: readonly number[];
  readonly offset: number;
  readonly contentEnd: number;
  readonly ending: string;
  readonly raw: string;
  readonly hasControl: boolean;
  readonly skipped: number;
  /** The CRC that should stand in this line; null when it is no G85, or one without an ST before it. */
  readonly integrity: number | null;
}

/**
 * The lines of a file by the plainest means there are: the whole file as one text, regular expressions, a CRC taken one
 * bit at a time over the range as it lies. Shares nothing with the parser, which it judges, but the numbers of segments.
 */
export function referenceLines(bytes: Uint8Array, longest: number): LineFacts[] {
  const facts: LineFacts[] = [];
  let coveredFrom: number | null = null;
  let offset = 0;
  for (const [whole, content = '', ending = ''] of textOf(bytes).matchAll(/([^\r\n]*)(\r\n|\r|\n|$)/g)) {
    if (whole === '') continue;
    const kept = content.slice(0, longest);
    const trimmed = kept.replace(/[ \0\x1a]+$/, '');
    const [id = '', ...elements] = trimmed.split('*');
    const kind = kindOf(trimmed, kept, id);
    let integrity: number | null = null;
    if (kind === SEGMENT.ST.index) coveredFrom = offset;
    if (kind === SEGMENT.G85.index && coveredFrom !== null) {
      integrity = crc16Bitwise(bytes.subarray(coveredFrom, offset));
      coveredFrom = null;
    }
    const elementOffsets: number[] = [];
    let elementOffset = offset + id.length + 1;
    for (const element of elements) {
      elementOffsets.push(elementOffset);
      elementOffset += element.length + 1;
    }
    facts.push({
      line: facts.length + 1,
      kind,
      id,
      elements,
      elementOffsets,
      offset,
      contentEnd: offset + trimmed.length,
      ending,
      raw: kept + ending,
      hasControl: /[\0-\x1f]/.test(trimmed),
      skipped: content.length - kept.length,
      integrity,
    });
    offset += whole.length;
  }
  return facts;
}

function kindOf(trimmed: string, kept: string, id: string): number {
  if (trimmed === '') return /[^ ]/.test(kept) ? LINE_KIND.padding : LINE_KIND.blank;
  return SEGMENTS.find((segment) => segment.id === id)?.index ?? LINE_KIND.unknownSegment;
}

/** The same facts as blocks tell them through their public face. */
export function factsOf(blocks: readonly SegmentBlock[]): LineFacts[] {
  return blocks.flatMap((block) => Array.from({ length: block.lineCount }, (_, line) => factOf(block, line)));
}

function factOf(block: SegmentBlock, line: number): LineFacts {
  const count = block.elementCount(line);
  const positions = Array.from({ length: count }, (_, i) => i + 1);
  const offset = block.fileOffset(block.start(line));
  const skips = block.parts.skips.filter((skip) => skip.line === line);
  return {
    line: block.lineNumber(line),
    kind: block.kind(line),
    id: block.id(line),
    elements: positions.map((position) => block.text(line, position) ?? 'absent'),
    elementOffsets: positions.map((position) => block.fileOffset(block.elementStart(line, position))),
    offset,
    contentEnd: offset + block.contentEnd(line) - block.start(line),
    ending: textOf(block.bytes.subarray(block.endingStart(line), block.next(line))),
    raw: textOf(block.raw(line)),
    hasControl: block.parts.controlLines.includes(line),
    skipped: skips.reduce((sum, skip) => sum + skip.length, 0),
    integrity: block.parts.integrity.get(line) ?? null,
  };
}
