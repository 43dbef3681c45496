import { type CaptureCheck, CaptureChecker, type CaptureCheckOptions, type CheckedRead } from '../../checks/index.js';
import { type Finding, makeFinding, printable } from '../../findings/index.js';
import { CaptureReader, type Read } from '../../read/index.js';
import { FileProblem, readFileChunks } from './file-chunks.js';

/** The check of a file, or of a part of one with very many reads. */
export interface CheckedPart extends CaptureCheck {
  /** Number in the file of the first of its reads. */
  readonly firstRead: number;
}

/** What may be known of a file, or asked while it is read. */
export interface SentFileReading {
  /** All bytes of the file, where they have been read already. */
  readonly known?: Uint8Array | null;
  /** Asked between pieces; false ends the reading there, and what it gives is of no use. */
  readonly isWanted?: () => boolean;
}

/** Most reads told in one part: the same number as the `check` command takes. */
export const READS_A_PART = 5000;
const LONGEST_NAME = 200;

/**
 * Check a file that a person gave to the browser, piece by piece, as the `check` command checks one on disk.
 *
 * @param onRead - told of every read
 * @returns one part for almost every file; nothing is thrown for what a file holds or for one that can not be read
 */
export async function checkSentFile(
  path: string,
  file: Blob,
  options: CaptureCheckOptions,
  onRead: (checked: CheckedRead) => void,
  reading: SentFileReading = {},
): Promise<readonly CheckedPart[]> {
  const parts: CheckedPart[] = [];
  let checker = new CaptureChecker(path, options);
  let firstRead = 0;
  let count = 0;
  const take = (read: Read): void => {
    if (count === READS_A_PART) {
      parts.push({ ...checker.end({ findings: [] }), firstRead });
      checker = new CaptureChecker(path, options);
      firstRead += count;
      count = 0;
    }
    onRead(checker.addRead(read));
    count++;
  };
  const findings = await readSentFile(path, file, take, reading);
  parts.push({ ...checker.end({ findings }), firstRead });
  return parts;
}

/**
 * Read a file that a person gave to the browser.
 *
 * @param onRead - told of every read as soon as it is whole
 * @returns what is found about the file as a whole, also why it could not be read
 */
export async function readSentFile(
  path: string,
  file: Blob,
  onRead: (read: Read) => void,
  { known = null, isWanted = () => true }: SentFileReading = {},
): Promise<readonly Finding[]> {
  const reader = new CaptureReader();
  try {
    for await (const chunk of readFileChunks(file, known)) {
      if (!isWanted()) return [];
      reader.push(chunk, onRead);
    }
  } catch (error) {
    if (!(error instanceof FileProblem)) throw error;
    reader.breakOff(onRead);
    return [sayNotRead(path, error.message)];
  }
  return reader.end(onRead).findings.map((finding) => ({ file: path, ...finding }));
}

/** Say that a file was not read, and why. */
export function sayNotRead(path: string, reason: string): Finding {
  return makeFinding('unreadable-file', `${printable(path, LONGEST_NAME)} could not be read: ${reason}.`, {
    file: path,
    advice: 'Choose the file again, or copy it to this device first; everything else was read.',
  });
}
