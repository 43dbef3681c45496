import { type Read, readCaptures } from '../../src/read/index.js';
import { joinCaptures } from './latin1-bytes.js';

/** Each read in a few words, then the codes of what is said of the file. */
export function describeFile(...parts: Uint8Array[]): { reads: string[]; codes: string[] } {
  const { reads, findings } = readCaptures(joinCaptures(...parts));
  return { reads: reads.map(describeRead), codes: findings.map(({ code }) => code) };
}

/** Serial number, integrity and completeness of a read, and the number of its transmission. */
export function describeRead(read: Read): string {
  const state = `${read.integrity.state}${read.isComplete ? '' : ' cut'}`;
  return `${read.machine.serial} ${state} ${read.range.transmission?.control ?? '-'}`;
}
