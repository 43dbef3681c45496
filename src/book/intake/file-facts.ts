import { type Stats, statSync } from 'node:fs';
import { onDisk } from '../../io/byte-name.js';
import { writeLocalTime } from '../../io/file-time.js';
import type { LocalDateTime } from '../../model/index.js';
import type { FileFacts } from '../store/index.js';

/**
 * What the file system says of a file; null when it is none that can be looked at a second time, such as a pipe.
 *
 * @throws the system's error; see `sayUnreadable`
 */
export function lookAtFile(path: string): FileFacts | null {
  const stats = statSync(onDisk(path));
  return stats.isFile() ? toFacts(path, stats) : null;
}

/** What `fs.stat` says, as it is kept. */
export function toFacts(path: string, { size, mtimeMs, ctimeMs }: Stats): FileFacts {
  return { path, size, modifiedMs: mtimeMs, changedMs: ctimeMs };
}

/** Whether a file is as it was, as far as the file system can tell. */
export function isUnchanged(a: FileFacts, b: FileFacts): boolean {
  return a.size === b.size && a.modifiedMs === b.modifiedMs && a.changedMs === b.changedMs;
}

/** File systems write down times as coarse as that (FAT: two seconds): a second change in it would not show. */
const COARSEST_MS = 2000;

/**
 * Whether a file that changes from now on will show it. One that was written this moment may be written once more with the
 * same size and time, so that it must be read again next time.
 */
export function isSettled({ modifiedMs, changedMs }: FileFacts, now: number): boolean {
  return Math.abs(now - Math.max(modifiedMs, changedMs)) > COARSEST_MS;
}

/** When a file was last written, in this computer's time zone; null when its time is none that a calendar has. */
export function fileTimeOf({ modifiedMs }: FileFacts): LocalDateTime | null {
  const moment = new Date(modifiedMs);
  const year = moment.getFullYear();
  return year >= 1970 && year <= 9999 ? writeLocalTime(moment) : null;
}
