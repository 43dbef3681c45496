import { crc16, decodeLatin1, formatCrc, swapCrcBytes } from '../bytes/index.js';
import type { SegmentBlock } from '../segments/index.js';

/** How the integrity value of G85 relates to the bytes. The states call for different things: see `checks/integrity`. */
export type IntegrityState = 'exact' | 'byte-swapped' | 'line-endings' | 'range-variant' | 'damaged' | 'absent';

/** Which deviations from the standard reading made the value fit. */
export type IntegrityVariant = 'byte-swapped' | 'line-endings' | 'from-dxs' | 'without-last-ending' | 'st-appended';

/** The outcome of comparing G85 with the bytes it covers. Values are four upper-case hexadecimal digits. */
export interface Integrity {
  readonly state: IntegrityState;
  /** What G85 says, as it came; null when there is no G85 or it is too short to be a value. */
  readonly stated: string | null;
  /** What the bytes give, in the reading that fitted, else in the standard reading; null when nothing can be computed. */
  readonly computed: string | null;
  readonly variants: readonly IntegrityVariant[];
}

/** Where the pieces lie that the integrity value is about; -1 for what is not there. */
export interface IntegrityRange {
  readonly block: SegmentBlock;
  readonly dxsLine: number;
  readonly stLine: number;
  readonly g85Line: number;
  /** The last segment before SE, where a G85 might hang. */
  readonly lastLine: number;
}

const CR_LF = Uint8Array.of(0x0d, 0x0a);

/**
 * Compare the integrity value with the bytes.
 *
 * The standard reading: CRC-16/ARC from the S of ST to the CR LF before G85, most significant byte first. Variants are
 * tried only when it fails, each only where there is a reason for it, and never called exact. One capture damaged at
 * random passes a variant by chance once in 65,536 for each variant tried; that is why they are few.
 *
 * @see manual L0190D, p. 42 (byte order); the range is from memory; variants are common practice
 */
export function judgeIntegrity(range: IntegrityRange): Integrity {
  const { block, stLine, g85Line } = range;
  const stated = g85Line < 0 ? null : block.text(g85Line, 1);
  if (g85Line < 0) return judgeGlued(range);
  if (stated === null || stated.length < DIGITS) return ABSENT;
  const carried = stLine < 0 ? null : crcUpTo(range);
  if (carried === null) return { state: 'damaged', stated, computed: null, variants: [] };
  const value = VALUE.test(stated) ? Number.parseInt(stated, 16) : null;
  if (value === carried) return { state: 'exact', stated, computed: stated.toUpperCase(), variants: [] };
  const fitting = value === null ? null : fitVariant(range, carried, value);
  if (fitting === null) return { state: 'damaged', stated, computed: formatCrc(carried), variants: [] };
  return { state: nameState(fitting), stated, computed: formatCrc(value!), variants: fitting };
}

const DIGITS = 4;
const VALUE = /^[0-9A-Fa-f]{4}$/;
const ABSENT: Integrity = { state: 'absent', stated: null, computed: null, variants: [] };

/** The CRC from ST up to G85: as it was carried along, or for a second G85 computed now; null when bytes were skipped. */
function crcUpTo({ block, stLine, g85Line }: IntegrityRange): number | null {
  const carried = block.parts.integrity.get(g85Line);
  if (carried !== undefined) return carried;
  return block.parts.skips.length > 0 ? null : crc16(block.bytes, block.start(stLine), block.start(g85Line));
}

/**
 * Where there is no G85 line, its value may hang on the line before: then the line ending that it covers was lost or
 * changed, and that is damage.
 */
function judgeGlued({ block, stLine, lastLine }: IntegrityRange): Integrity {
  if (lastLine < 0) return ABSENT;
  const end = block.contentEnd(lastLine);
  const text = decodeLatin1(block.bytes, Math.max(block.start(lastLine), end - LONGEST_GLUED), end);
  const match = /G85\*([0-9A-Fa-f]{4})$/.exec(text);
  if (match === null) return ABSENT;
  const at = end - match[0].length;
  const computed = stLine < 0 ? null : formatCrc(crc16(block.bytes, block.start(stLine), at));
  return { state: 'damaged', stated: match[1]!, computed, variants: [] };
}

/** So many bytes before the end of a line are looked at for a G85 that hangs on it. */
const LONGEST_GLUED = 16;

function nameState(variants: readonly IntegrityVariant[]): IntegrityState {
  if (variants.includes('line-endings')) return 'line-endings';
  return variants[0] === 'byte-swapped' ? 'byte-swapped' : 'range-variant';
}

/** The first variant that gives `value`, or null. */
function fitVariant(range: IntegrityRange, carried: number, value: number): readonly IntegrityVariant[] | null {
  const { block, dxsLine, stLine, g85Line } = range;
  if (carried === swapCrcBytes(value)) return ['byte-swapped'];
  const endings = judgeEndings(block, stLine, g85Line);
  const isStAppended = block.elementCount(stLine) > 2;
  const end = block.start(g85Line);
  const candidates: [boolean, IntegrityVariant[], () => number][] = [
    [isStAppended, ['st-appended'], () => crcOfLines(range, 'whole', true)],
    [endings !== 'whole', ['line-endings'], () => crcOfLines(range, endings, false)],
    [endings !== 'whole' && isStAppended, ['line-endings', 'st-appended'], () => crcOfLines(range, endings, true)],
    [dxsLine >= 0, ['from-dxs'], () => crc16(block.bytes, block.start(dxsLine), end)],
    [true, ['without-last-ending'], () => crc16(block.bytes, block.start(stLine), block.endingStart(g85Line - 1))],
  ];
  for (const [isReasonable, variants, compute] of candidates) {
    if (!isReasonable) continue;
    const crc = compute();
    if (crc === value) return variants;
    if (crc === swapCrcBytes(value)) return [...variants, 'byte-swapped'];
  }
  return null;
}

/**
 * What a transfer made of the line endings: `whole` (nothing), `changed` (no line ends in CR LF any more), `doubled` (a
 * blank line after every line, as when CR LF became CR CR LF). A transfer changes all of them alike, so one line that is
 * as it should be says that there was none: without that, a few flipped bits in one ending could pass for its doing.
 */
type Endings = 'whole' | 'changed' | 'doubled';

function judgeEndings(block: SegmentBlock, from: number, to: number): Endings {
  let isChanged = true;
  let isDoubled = true;
  for (let line = from; line < to; line++) {
    const isBlank = block.endingStart(line) === block.start(line);
    if (!isBlank && block.next(line) - block.endingStart(line) === 2) isChanged = false;
    if (isBlank !== ((line - from) % 2 === 1)) isDoubled = false;
  }
  if (isDoubled && (to - from) % 2 === 0) return 'doubled';
  return isChanged ? 'changed' : 'whole';
}

/** The CRC of the covered lines with their endings restored to CR LF, or what was appended to ST taken out again. */
function crcOfLines(range: IntegrityRange, endings: Endings, dropAppended: boolean): number {
  const { block, stLine, g85Line } = range;
  let crc = 0;
  for (let line = stLine; line < g85Line; line++) {
    const start = block.start(line);
    const ending = block.endingStart(line);
    if (endings === 'doubled' && ending === start) continue;
    const end = dropAppended && line === stLine ? block.elementEnd(line, 2) : ending;
    crc = crc16(block.bytes, start, end, crc);
    crc = endings === 'whole' ? crc16(block.bytes, ending, block.next(line), crc) : crc16(CR_LF, 0, 2, crc);
  }
  return crc;
}
