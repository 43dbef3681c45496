import type { LocalDateTime, MachineKey } from '../model/index.js';
import type { Read } from '../read/index.js';

/** The machine's clock, how often it was read, and what it has sold and taken in: reads alike in all of it are one read. */
const MARKS = ['ID501', 'ID502', 'EA301', 'EA309', 'VA101', 'VA102', 'CA305'] as const;

/**
 * Remembers when each read came first, as files are checked one after the other: a clock is judged by the earliest arrival of a
 * read (domain rule), and a copy that came later says nothing of it.
 */
export class FirstArrivals {
  readonly #first = new Map<string, LocalDateTime>();

  /**
   * Take note of a read.
   *
   * @param key - its machine's; a read that is of nobody's machine is no copy
   * @returns whether it came before, no later than now
   */
  isLaterCopy(key: MachineKey | null, read: Read, receivedAt: LocalDateTime | null): boolean {
    if (key === null || receivedAt === null) return false;
    const mark = `${key}\n${MARKS.map((element) => read.text(element) ?? '').join('*')}`;
    const first = this.#first.get(mark);
    if (first !== undefined && first <= receivedAt) return true;
    this.#first.set(mark, receivedAt);
    return false;
  }
}
