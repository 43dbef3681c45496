import { crc16Bitwise, swapBytes16, writeHex16 } from './crc16-bitwise.js';
import { bytesOf, joinCaptures, textOf } from './latin1-bytes.js';

export { bytesOf, joinCaptures, textOf };

/** How G85 is filled in. Any other text is written as G8501 as it is. `none` leaves the segment out. */
export type CrcChoice = 'exact' | 'swapped' | 'lower' | 'none' | 'wrong' | 'from-dxs' | 'without-last-eol';

/** One transaction set: what stands between ST and G85, and how ST, G85 and SE depart from what is right. */
export interface SetOptions {
  readonly crc?: CrcChoice | (string & {});
  /** `crlf` (default): the CRC of the text as the machine sent it; `as-sent`: of the line endings in the file. */
  readonly crcOver?: 'crlf' | 'as-sent';
  /** Default `ST*001*0001`, with the number of the set in its transmission. */
  readonly stLine?: string;
  /** Further elements that a reader appended to ST, e.g. `261120101500`. */
  readonly stAppend?: string;
  /** Whether the CRC was computed with `stAppend` in place. Default false: the machine did not know of it. */
  readonly appendCovered?: boolean;
  /** SE01, in place of the true number of segments. */
  readonly seCount?: number | string;
  /** SE02, in place of ST02. */
  readonly seControl?: string;
}

/** How the envelope and the bytes around the sets depart from what is right. */
export interface TransmissionOptions {
  /** Line ending of the file. Default CR LF. */
  readonly eol?: '\r\n' | '\n' | '\r';
  /** Whether there are DXS and DXE. Default true. */
  readonly envelope?: boolean;
  /** Default `DXS*TST0000001*VA*V1/1*1`. */
  readonly dxsLine?: string;
  /** The whole DXE line; null leaves it out. */
  readonly dxe?: string | null;
  /** DXE02, in place of the true number of sets. */
  readonly setCount?: number | string;
  /** A line of the reader's own before the first one. */
  readonly header?: string;
  /** Bytes after the last line ending. */
  readonly padding?: Uint8Array;
  /** Keep only that many bytes; a negative number cuts that many off the end. */
  readonly cutAt?: number;
}

/** Options of {@link buildCapture}. */
export interface CaptureOptions extends SetOptions, TransmissionOptions {}

/** One set for {@link buildTransmission}. */
export interface CaptureSet extends SetOptions {
  readonly segments: readonly string[];
}

const DEFAULT_DXS = 'DXS*TST0000001*VA*V1/1*1';

const elementOf = (line: string, position: number): string => line.split('*')[position] ?? '';

const endLines = (lines: readonly string[], eol: string): string => lines.map((line) => line + eol).join('');

/** A value that no reading of the set, right or variant, gives. */
function findWrongCrc(covered: string, dxs: string): number {
  const texts = [covered, dxs + covered, covered.replace(/[\r\n]+$/, '')];
  texts.push(...texts.map((text) => text.replace(/\r\n|\r|\n/g, '\r\n')));
  const taken = new Set(texts.map((text) => crc16Bitwise(bytesOf(text))));
  let crc = crc16Bitwise(bytesOf(covered)) ^ 0x5a5a;
  while (taken.has(crc) || taken.has(swapBytes16(crc))) crc = (crc + 1) & 0xffff;
  return crc;
}

/** G8501 for a covered text and the transmission header (with its line ending, or empty) that stands before it. */
function writeCrc(choice: string, covered: string, dxs: string): string {
  const crcOf = (text: string): string => writeHex16(crc16Bitwise(bytesOf(text)));
  switch (choice) {
    case 'exact':
      return crcOf(covered);
    case 'lower':
      return crcOf(covered).toLowerCase();
    case 'swapped':
      return writeHex16(swapBytes16(crc16Bitwise(bytesOf(covered))));
    case 'from-dxs':
      return crcOf(dxs + covered);
    case 'without-last-eol':
      return crcOf(covered.replace(/(\r\n|\r|\n)$/, ''));
    case 'wrong':
      return writeHex16(findWrongCrc(covered, dxs));
    default:
      return choice;
  }
}

/**
 * The lines of one set. The CRC covers every byte from the S of ST to the CR LF before G85 (from memory of the standard);
 * SE01 counts ST and SE, SE02 repeats ST02 (ANSI X12). Blank lines are no segments and are not counted.
 */
function writeSet(set: CaptureSet, number: number, eol: string, dxs: string | null): string[] {
  const bare = set.stLine ?? `ST*001*${String(number).padStart(4, '0')}`;
  const st = set.stAppend === undefined ? bare : `${bare}*${set.stAppend}`;
  const crcEol = set.crcOver === 'as-sent' ? eol : '\r\n';
  const covered = endLines([set.appendCovered ? st : bare, ...set.segments], crcEol);
  const choice = set.crc ?? 'exact';
  const body = [st, ...set.segments];
  if (choice !== 'none') body.push(`G85*${writeCrc(choice, covered, dxs === null ? '' : dxs + crcEol)}`);
  const count = set.seCount ?? body.filter((line) => line !== '').length + 1;
  return [...body, `SE*${count}*${set.seControl ?? elementOf(bare, 2)}`];
}

/**
 * Write a transmission of several sets: DXS, each set with its ST, G85 and SE, DXE. Counts, control numbers and CRCs are
 * right unless an option says otherwise.
 */
export function buildTransmission(sets: readonly CaptureSet[], options: TransmissionOptions = {}): Uint8Array {
  const eol = options.eol ?? '\r\n';
  const dxs = options.envelope === false ? null : (options.dxsLine ?? DEFAULT_DXS);
  const lines = options.header === undefined ? [] : [options.header];
  if (dxs !== null) lines.push(dxs);
  sets.forEach((set, index) => {
    lines.push(...writeSet(set, index + 1, eol, dxs));
  });
  const dxe =
    options.dxe === undefined ? `DXE*${elementOf(dxs ?? '', 4)}*${options.setCount ?? sets.length}` : options.dxe;
  if (dxs !== null && dxe !== null) lines.push(dxe);
  const bytes = joinCaptures(bytesOf(endLines(lines, eol)), options.padding ?? new Uint8Array());
  return options.cutAt === undefined ? bytes : bytes.slice(0, options.cutAt);
}

/**
 * Write a capture of one set.
 *
 * @param segments - the data segments between ST and G85, e.g. `ID1*…`; ST, G85, SE, DXS and DXE are filled in
 * @example buildCapture(['ID1*S1*M1', 'VA1*100*1'], { crc: 'swapped', eol: '\n' })
 */
export function buildCapture(segments: readonly string[], options: CaptureOptions = {}): Uint8Array {
  return buildTransmission([{ ...options, segments }], options);
}
