import { stat } from 'node:fs/promises';
import { type LocalDateTime, writeDate, writeTime } from '../model/index.js';
import { onDisk } from './byte-name.js';
import { pathOf, STANDARD_INPUT, type Workplace } from './workplace.js';

/**
 * When a file was last written, in this computer's time zone: the time it was received, where the user says so. Null for
 * standard input and for what can not be looked at.
 */
export async function fileTime(file: string, workplace: Workplace): Promise<LocalDateTime | null> {
  if (file === STANDARD_INPUT) return null;
  try {
    return writeLocalTime((await stat(onDisk(pathOf(file, workplace)))).mtime);
  } catch {
    return null;
  }
}

/** A moment as a clock on the wall of this computer shows it. */
export function writeLocalTime(moment: Date): LocalDateTime {
  const date = writeDate(moment.getFullYear(), moment.getMonth() + 1, moment.getDate());
  return `${date}T${writeTime(moment.getHours(), moment.getMinutes(), moment.getSeconds())}`;
}
