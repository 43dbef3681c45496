import { type TakeOptions, takeRead, withDoubtsOfFile } from '../captures/index.js';
import type { Finding } from '../findings/index.js';
import type { TakenRead } from '../interval/index.js';
import { fileTime } from './file-time.js';
import { streamFile } from './stream-file.js';
import { walkFiles } from './walk-files.js';
import { currentWorkplace, type Workplace } from './workplace.js';

/** The reads of a file as the accounts take them, and what is said of the file itself. */
export interface TakenFile {
  readonly file: string;
  readonly reads: readonly TakenRead[];
  readonly findings: readonly Finding[];
}

/** Options of {@link takeFiles}. */
export interface TakeFilesOptions extends TakeOptions {
  /** The user says that a file's own time is when it was received; without that it is no evidence. */
  readonly isFileTimeReceived?: boolean;
  /** Real paths of files that are no captures, such as the office's sheets; passed over where a folder holds them. */
  readonly skip?: ReadonlySet<string>;
  /** Told of every file before it is read. */
  readonly onFile?: (file: string) => void;
}

/** All reads of many files, and what is said of the files themselves. */
export interface FolderReading {
  readonly reads: readonly TakenRead[];
  readonly findings: readonly Finding[];
}

/** Take all reads of a capture file into the accounts. A file that breaks off keeps the reads before that. */
export async function takeFile(
  file: string,
  options: TakeFilesOptions,
  workplace: Workplace = currentWorkplace(),
): Promise<TakenFile> {
  const reads: TakenRead[] = [];
  const received = options.isFileTimeReceived ? { fileTime: await fileTime(file, workplace) } : {};
  const stream = streamFile(file, workplace);
  let next = await stream.next();
  for (; !next.done; next = await stream.next()) reads.push(takeRead(file, next.value, { ...options, ...received }));
  return { file, reads: withDoubtsOfFile(reads, next.value), findings: next.value };
}

/**
 * Take all reads of files and folders, however deep, into the accounts. What can not be read is said in the findings, and
 * everything else still counts.
 *
 * @example const { reads } = await takeFiles(['captures'], { roster });
 */
export async function takeFiles(
  names: readonly string[],
  options: TakeFilesOptions,
  workplace: Workplace = currentWorkplace(),
): Promise<FolderReading> {
  const reads: TakenRead[] = [];
  const findings: Finding[] = [];
  for await (const { file, problem } of walkFiles(names, workplace, options.skip)) {
    options.onFile?.(file);
    if (problem !== null) {
      findings.push(problem);
      continue;
    }
    const taken = await takeFile(file, options, workplace);
    for (const read of taken.reads) reads.push(read);
    for (const finding of taken.findings) findings.push(finding);
  }
  return { reads, findings };
}
