import { type CaptureCheck, CaptureChecker, type CaptureCheckOptions } from '../checks/index.js';
import { fileTime } from './file-time.js';
import { streamFile } from './stream-file.js';
import { currentWorkplace, type Workplace } from './workplace.js';

/** Options of {@link checkFile}. */
export interface CheckFileOptions extends CaptureCheckOptions {
  /** The user says that a file's own time is when it was received; without that it is no evidence. */
  readonly isFileTimeReceived?: boolean;
}

/** The check of a file, or of a part of a file with very many reads. */
export interface PartialCheck extends CaptureCheck {
  /** Number in the file of the first of `reads`, from 0: above 0 it is not the first part. */
  readonly firstRead: number;
}

/** Most reads that are told in one part: a day's captures of a large operator joined in one file are more than that. */
export const READS_A_PART = 5000;

/**
 * Check one capture file, or standard input for `-`, as its bytes come in. A file that can not be read, or breaks off in
 * the middle, is said so in the findings. What is said of each read is kept, so for files of gigabytes take
 * {@link checkFileInParts}.
 *
 * @example const { verdict, headline } = await checkFile('capture.dex');
 */
export async function checkFile(
  file: string,
  options: CheckFileOptions = {},
  workplace: Workplace = currentWorkplace(),
): Promise<CaptureCheck> {
  const parts = checkFileInParts(file, options, workplace, Number.POSITIVE_INFINITY);
  const { firstRead: _, ...check } = (await parts.next()).value!;
  return check;
}

/**
 * Check one capture file part by part, so that memory stays flat however long it is. Almost every file has one part only.
 * What is said of the file as a whole is in the last one.
 *
 * @param readsAPart - most reads of one part
 */
export async function* checkFileInParts(
  file: string,
  { isFileTimeReceived = false, ...options }: CheckFileOptions = {},
  workplace: Workplace = currentWorkplace(),
  readsAPart: number = READS_A_PART,
): AsyncGenerator<PartialCheck> {
  const received = isFileTimeReceived ? { fileTime: await fileTime(file, workplace) } : {};
  const startPart = (): CaptureChecker => new CaptureChecker(file, { ...options, ...received });
  const reads = streamFile(file, workplace);
  let checker = startPart();
  let firstRead = 0;
  let count = 0;
  let next = await reads.next();
  for (; !next.done; next = await reads.next()) {
    if (count === readsAPart) {
      yield { ...checker.end({ findings: [] }), firstRead };
      checker = startPart();
      firstRead += count;
      count = 0;
    }
    checker.addRead(next.value);
    count++;
  }
  yield { ...checker.end({ findings: next.value }), firstRead };
}
