import type { CaptureCheck, ReadSummary } from '../../checks/index.js';
import type { Day, DayFiles } from '../../day/index.js';
import { countFiles } from '../../day/sum-day.js';

/** A file's check as one part of the day has it. */
export interface SharedCheck {
  readonly check: CaptureCheck;
  /** Whether the file is counted with this part. */
  readonly isOwner: boolean;
}

/**
 * A check with the reads of some machines alone. The others keep their place in the file, so that numbers of reads stay what
 * they are, but do not say whose they are; what is found on the file as a whole stays with one part.
 *
 * @param isOwn - by the number of a read
 */
export function narrowCheck(check: CaptureCheck, isOwn: (read: number) => boolean, isOwner: boolean): CaptureCheck {
  return {
    ...check,
    reads: check.reads.map((summary, number) => (isOwn(number) ? summary : withoutName(summary))),
    findings: check.findings.filter(({ read }) => (read === undefined ? isOwner : isOwn(read))),
  };
}

function withoutName(summary: ReadSummary): ReadSummary {
  return { ...summary, machine: { asset: null, serial: null, model: null, board: null, name: null, location: null } };
}

/** Count the files of a part: each with the part that owns it. */
export function countOwned(checks: readonly SharedCheck[], { files }: Day): DayFiles {
  const owned = checks.filter(({ isOwner }) => isOwner).map(({ check }) => check);
  return { ...countFiles(owned, []), duplicates: files.duplicates };
}
