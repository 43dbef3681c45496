import { CaptureChecker } from '../checks/index.js';
import { type CheckFileOptions, checkFileInParts, type PartialCheck } from './check-file.js';
import { walkFiles } from './walk-files.js';
import { currentWorkplace, type Workplace } from './workplace.js';

/** Options of {@link checkFiles}. */
export interface CheckFilesOptions extends CheckFileOptions {
  /** Real paths of files that are no captures, such as the office's sheets; passed over where a folder holds them. */
  readonly skip?: ReadonlySet<string>;
  /** Told of every file before it is read. */
  readonly onFile?: (file: string) => void;
}

/**
 * Check files and folders of captures, however deep, one after the other: one result a file, also for one that can not be
 * read, and several for a file with very many reads (see `checkFileInParts`).
 *
 * @example for await (const { file, verdict } of checkFiles(['captures'])) console.log(file, verdict);
 */
export async function* checkFiles(
  names: readonly string[],
  { skip, onFile, ...options }: CheckFilesOptions = {},
  workplace: Workplace = currentWorkplace(),
): AsyncGenerator<PartialCheck> {
  for await (const { file, problem } of walkFiles(names, workplace, skip)) {
    onFile?.(file);
    if (problem === null) yield* checkFileInParts(file, options, workplace);
    else yield { ...new CaptureChecker(file, options).end({ findings: [problem] }), firstRead: 0 };
  }
}
