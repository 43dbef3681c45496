import type { MachineReads } from './machine-reads.js';
import { ReadIndex } from './read-index.js';
import type { VisitRead } from './visit-read.js';

/**
 * A file that is said to be of a service read and holds several reads of one machine (what a device kept since the visit
 * before, and the visit): the last of them is the service read, as its time is (domain rule). Of the others nothing is known.
 */
export function withOneServiceAFile(reads: MachineReads): MachineReads {
  const all = [...reads.usable.all, ...reads.faulty.all];
  const last = new Map<string, number>();
  let isPlain = true;
  for (const { taken } of all) {
    const known = last.get(taken.file);
    if (known !== undefined) isPlain = false;
    last.set(taken.file, Math.max(known ?? -1, taken.read.number));
  }
  if (isPlain) return reads;
  const settle = (read: VisitRead): VisitRead => {
    const { taken } = read;
    // Copies in other files may tell of it as well; what a profile shows is shown of each read by itself.
    const isSaid = read.isService === true && taken.reason === 'service' && read.files.length === 1;
    return isSaid && taken.read.number < last.get(taken.file)! ? { ...read, isService: null } : read;
  };
  return {
    ...reads,
    usable: new ReadIndex(reads.usable.all.map(settle)),
    faulty: new ReadIndex(reads.faulty.all.map(settle)),
  };
}

/** Of reads that one name fits, the last of each file: what is said of a file with several reads is said of that. */
export function lastOfEachFile(reads: readonly VisitRead[]): readonly VisitRead[] {
  return reads.filter(({ taken }) =>
    reads.every((other) => other.taken.file !== taken.file || other.taken.read.number <= taken.read.number),
  );
}
