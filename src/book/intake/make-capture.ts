import { createHash } from 'node:crypto';
import type { ToldOfFile } from '../../checks/index.js';
import { compareSeverity, type Finding, makeFinding } from '../../findings/index.js';
import { unpackCapture } from '../../io/unpack.js';
import type { LocalDate, LocalDateTime } from '../../model/index.js';
import { type Read, readCaptures } from '../../read/index.js';
import type { FilesAtHand } from '../recall/index.js';
import type { CaptureToRecord, FileFacts, JsonObject } from '../store/index.js';
import { toToldRow } from '../told/index.js';
import { CountedReads } from './counted-reads.js';
import type { IntakeLimits } from './intake.js';
import type { ReadMaker } from './make-read.js';
import { cutInPieces, PIECE, readPieces } from './pieces.js';
import { type FileSurvey, ReadSearch } from './survey.js';

/** What is known of a file besides its bytes. */
export interface FileOrigin {
  /** As it was found. */
  readonly name: string;
  /** When it was last written; null where nothing says so. */
  readonly fileTime: LocalDateTime | null;
  /** By which it is known again; null when it shall be read again next time. */
  readonly file: FileFacts | null;
}

/** A file ready to be recorded. */
export interface MadeCapture {
  readonly capture: CaptureToRecord;
  /** The reads of the capture, which may be made only while they are recorded. */
  readonly reads: CountedReads;
  /** Whether its reads are made while they are recorded: then it is recorded by itself, as it may hold any number. */
  readonly isStreamed: boolean;
}

/** What is the same for all files of a run. */
export interface CaptureMakerOptions {
  readonly day: LocalDate;
  readonly recordedAt: () => string;
  readonly reads: ReadMaker;
  readonly isFileTimeReceived: boolean;
  /** The entry that says what held for these files (`told`); null where nothing was told. Default: none says it. */
  readonly toldBy?: number | null;
  readonly limits: IntakeLimits;
  /** Where files that were parsed are held. Default: nowhere. */
  readonly atHand?: FilesAtHand;
}

/** The bytes of a file as the book shall have them. */
type Content = Pick<CaptureToRecord, 'sha256' | 'size' | 'bytes'> & { readonly isPacked?: boolean };

/** Makes files what the book records of them. */
export class CaptureMaker {
  readonly #options: CaptureMakerOptions;

  constructor(options: CaptureMakerOptions) {
    this.#options = options;
  }

  /** A file that is in memory whole, packed or not. */
  ofBytes(origin: FileOrigin, bytes: Uint8Array): MadeCapture {
    const { limits } = this.#options;
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    const unpacked = unpackCapture(bytes, limits.largestUnpacked);
    const content: Content = {
      sha256,
      size: bytes.length,
      bytes: bytes.length <= PIECE ? bytes : cutInPieces(bytes),
      isPacked: unpacked.state !== 'plain',
    };
    if (!('bytes' in unpacked)) {
      return this.#setAside(origin, content, [makeFinding('not-a-capture', unpacked.message)]);
    }
    return unpacked.bytes.length <= limits.longestWhole
      ? this.#takeAtOnce(origin, content, unpacked.bytes)
      : this.#takeFromMemory(origin, content, unpacked.bytes);
  }

  /** A file on the disk that was looked through; its pieces are read again, and its reads a third time. */
  ofSurvey(origin: FileOrigin, survey: FileSurvey, pieces: () => Iterable<Uint8Array>): MadeCapture {
    const { sha256, size, findings } = survey;
    const content: Content = { sha256, size, bytes: pieces() };
    return findings === null
      ? this.#take(origin, content, () => readPieces(pieces()), null)
      : this.#setAside(origin, content, findings);
  }

  #takeAtOnce(origin: FileOrigin, content: Content, bytes: Uint8Array): MadeCapture {
    const file = readCaptures(bytes);
    const { reads, findings } = file;
    // Working it out asks for it again.
    if (reads.length > 0) this.#options.atHand?.addIfRoom(content.sha256, file, bytes.length);
    return reads.length > 0
      ? this.#take(origin, content, () => reads, findings)
      : this.#setAside(origin, content, findings);
  }

  #takeFromMemory(origin: FileOrigin, content: Content, bytes: Uint8Array): MadeCapture {
    const search = new ReadSearch();
    for (const piece of cutInPieces(bytes)) search.push(piece);
    const findings = search.end();
    return findings === null
      ? this.#take(origin, content, () => readPieces(cutInPieces(bytes)), null)
      : this.#setAside(origin, content, findings);
  }

  /** @param found - what was found on the file as a whole; null where its reads are made while they are recorded */
  #take(
    origin: FileOrigin,
    content: Content,
    reads: () => Iterable<Read>,
    found: readonly Finding[] | null,
  ): MadeCapture {
    const { isFileTimeReceived, reads: maker } = this.#options;
    const receivedAt = isFileTimeReceived ? origin.fileTime : null;
    const counted = new CountedReads(reads, maker.ofFile(origin.name, receivedAt, found));
    const isStreamed = found === null;
    if (!isStreamed) counted.makeAll();
    const facts = this.#toldFacts(maker.toldOf(origin.name));
    return { capture: this.#make('capture-taken', origin, content, counted, facts), reads: counted, isStreamed };
  }

  /** What the entry says of what was told: by which its reads can be matched again. */
  #toldFacts(told: ToldOfFile | null): JsonObject {
    const { toldBy } = this.#options;
    if (toldBy === undefined) return {};
    return { by: toldBy, ...(told === null ? {} : { told: toToldRow(told) as JsonObject }) };
  }

  #setAside(origin: FileOrigin, content: Content, findings: readonly Finding[]): MadeCapture {
    const sorted = [...findings].sort(compareSeverity);
    const facts = { codes: [...new Set(sorted.map(({ code }) => code))], message: sorted[0]!.message };
    const isKept = content.size <= this.#options.limits.largestSetAside;
    const kept: Content = isKept ? content : { ...content, bytes: null };
    const none = new CountedReads(() => [], this.#options.reads.ofFile(origin.name, null, null));
    return { capture: this.#make('set-aside', origin, kept, none, facts), reads: none, isStreamed: false };
  }

  #make(
    kind: CaptureToRecord['kind'],
    { name, file, fileTime }: FileOrigin,
    { sha256, size, bytes, isPacked = false }: Content,
    reads: CountedReads,
    facts: JsonObject,
  ): CaptureToRecord {
    const { day, recordedAt } = this.#options;
    const time = fileTime === null ? {} : { fileTime };
    const packing = isPacked ? { packing: 'gzip' } : {};
    return {
      kind,
      recordedAt: recordedAt(),
      name,
      day,
      sha256,
      size,
      bytes,
      facts: { ...facts, ...time, ...packing },
      reads,
      file,
    };
  }
}
