import { type CaptureCheck, CaptureChecker, type CheckedRead, type InstallCapture } from '../checks/index.js';
import type { CheckFileOptions } from './check-file.js';
import { fileTime } from './file-time.js';
import { streamFile } from './stream-file.js';
import { currentWorkplace, type Workplace } from './workplace.js';

/** A capture of an installation: its last read, or none where the file holds none, and the check of the file. */
export interface InstallReading {
  readonly capture: InstallCapture | null;
  readonly check: CaptureCheck;
}

/** Read a capture for the install check. Of a file with several reads the last one is meant: it shows how things stand. */
export async function readInstallCapture(
  file: string,
  { isFileTimeReceived = false, ...options }: CheckFileOptions = {},
  workplace: Workplace = currentWorkplace(),
): Promise<InstallReading> {
  const received = isFileTimeReceived ? { fileTime: await fileTime(file, workplace) } : {};
  const checker = new CaptureChecker(file, { ...options, ...received });
  const reads = streamFile(file, workplace);
  let last: CheckedRead | null = null;
  let next = await reads.next();
  for (; !next.done; next = await reads.next()) last = checker.addRead(next.value);
  const check = checker.end({ findings: next.value });
  return { capture: last === null ? null : { ...last, fileFindings: next.value }, check };
}
