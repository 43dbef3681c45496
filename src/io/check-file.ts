import { type CaptureCheck, CaptureChecker, type CaptureCheckOptions } from '../checks/index.js';
import { streamReads } from '../read/index.js';
import { sayUnreadable } from './file-problem.js';
import { fileTime } from './file-time.js';
import { readChunks } from './read-chunks.js';
import { currentWorkplace, type Workplace } from './workplace.js';

/** Options of {@link checkFile}. */
export interface CheckFileOptions extends CaptureCheckOptions {
  /** The user says that a file's own time is when it was received; without that it is no evidence. */
  readonly isFileTimeReceived?: boolean;
}

/**
 * Check one capture file, or standard input for `-`, as its bytes come in. A file that can not be read, or breaks off in
 * the middle, is said so in the findings.
 *
 * @example const { verdict, headline } = await checkFile('capture.dex');
 */
export async function checkFile(
  file: string,
  { isFileTimeReceived = false, ...options }: CheckFileOptions = {},
  workplace: Workplace = currentWorkplace(),
): Promise<CaptureCheck> {
  const received = isFileTimeReceived ? { fileTime: await fileTime(file, workplace) } : {};
  const checker = new CaptureChecker(file, { ...options, ...received });
  const stream = streamReads(readChunks(file, workplace));
  try {
    for (;;) {
      const next = await stream.next();
      if (next.done) return checker.end(next.value);
      checker.addRead(next.value);
    }
  } catch (error) {
    return checker.end({ findings: [sayUnreadable(file, error)] });
  }
}
