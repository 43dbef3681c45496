import { type CaptureCheck, CaptureChecker, type CheckedRead, type InstallCapture } from '../checks/index.js';
import { streamReads } from '../read/index.js';
import type { CheckFileOptions } from './check-file.js';
import { sayUnreadable } from './file-problem.js';
import { fileTime } from './file-time.js';
import { readChunks } from './read-chunks.js';
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
  const stream = streamReads(readChunks(file, workplace));
  let last: CheckedRead | null = null;
  try {
    for (;;) {
      const next = await stream.next();
      if (next.done) {
        const fileFindings = next.value.findings.map((finding) => ({ file, ...finding }));
        return { capture: last === null ? null : { ...last, fileFindings }, check: checker.end(next.value) };
      }
      last = checker.addRead(next.value);
    }
  } catch (error) {
    return { capture: null, check: checker.end({ findings: [sayUnreadable(file, error)] }) };
  }
}
