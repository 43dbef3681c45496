import type { CountRow, LocalDate, LocalDateTime } from '../model/index.js';
import { baseName } from '../sheets/index.js';
import type { VisitRead } from './visit-read.js';

/** A read of which it is known when it was taken. */
export type TimedRead = VisitRead & { readonly time: LocalDateTime; readonly minute: number };

/** The reads of one machine by what a count sheet may say of them: a name, a bag, a minute, a date. */
export class ReadIndex {
  readonly all: readonly VisitRead[];
  readonly #byFile = new Map<string, VisitRead[]>();
  readonly #byBag = new Map<string, VisitRead[]>();
  readonly #byDate = new Map<LocalDate, VisitRead[]>();
  /** Those with a time, earliest first. */
  readonly earliestFirst: readonly TimedRead[];

  constructor(reads: readonly VisitRead[]) {
    this.all = reads;
    for (const read of reads) {
      for (const file of new Set(read.files.map(baseName))) push(this.#byFile, file, read);
      for (const bag of new Set(read.bags)) push(this.#byBag, bag, read);
      if (read.time !== null) push(this.#byDate, read.time.slice(0, 10), read);
    }
    this.earliestFirst = reads.filter(hasTime).sort((a, b) => a.minute - b.minute);
  }

  /** The reads whose file or bag a row of the count sheet names. */
  named({ capture, bag }: CountRow): readonly VisitRead[] {
    const byFile = capture === null ? [] : (this.#byFile.get(baseName(capture)) ?? []);
    const byBag = bag === null ? [] : (this.#byBag.get(bag) ?? []);
    return [...new Set([...byFile, ...byBag])];
  }

  /** The reads no further than so many minutes from a minute, to either side. */
  near(minute: number, windowMinutes: number): readonly VisitRead[] {
    const found: VisitRead[] = [];
    for (let i = this.#firstFrom(minute - windowMinutes); i < this.earliestFirst.length; i++) {
      const read = this.earliestFirst[i]!;
      if (read.minute > minute + windowMinutes) break;
      found.push(read);
    }
    return found;
  }

  /** The reads of a day. */
  onDate(date: LocalDate): readonly VisitRead[] {
    return this.#byDate.get(date) ?? [];
  }

  #firstFrom(minute: number): number {
    let low = 0;
    let high = this.earliestFirst.length;
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (this.earliestFirst[middle]!.minute < minute) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}

function hasTime(read: VisitRead): read is TimedRead {
  return read.time !== null;
}

function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [value]);
  else list.push(value);
}
