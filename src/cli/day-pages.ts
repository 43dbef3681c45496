import type { BookRound } from '../book/closing/index.js';
import type { BookHead } from '../book/index.js';
import type { DayPart } from '../book/run/index.js';
import type { Day, LocalDate } from '../index.js';
import type { PagesWriter } from '../pages/index.js';
import { PagesFolder } from './pages-folder.js';

/** The pages of a day, written while the day is made part by part. */
export class DayPages {
  readonly #folder: PagesFolder;
  readonly #writer: PagesWriter;

  private constructor(folder: PagesFolder, writer: PagesWriter) {
    this.#folder = folder;
    this.#writer = writer;
  }

  /**
   * Begin pages in a folder. What makes them is loaded only here.
   *
   * @param book - the book's head as it is while they are made
   */
  static async begin(folder: string, day: LocalDate, book: BookHead): Promise<DayPages> {
    const { makeMachinePages, PagesWriter } = await import('../pages/index.js');
    const writer = new PagesWriter({ day, book, hasRounds: true, machinePages: makeMachinePages });
    return new DayPages(new PagesFolder(folder), writer);
  }

  /** The pages of some machines. */
  async add(part: DayPart): Promise<void> {
    await this.#folder.put(this.#writer.add(part));
  }

  /** The sheets of the day's rounds and the pages of the day as a whole; then all take their places. */
  async finish(day: Day, rounds: readonly BookRound[]): Promise<void> {
    for (const { settlement, inBook } of rounds.filter(isShown)) {
      await this.#folder.put(this.#writer.addRound({ settlement, inBook }));
    }
    await this.#folder.put(this.#writer.end(day));
    await this.#folder.finish();
  }

  /** Take away what was begun and not finished. */
  discard(): Promise<void> {
    return this.#folder.discard();
  }
}

/** A round of which nothing was counted and nothing closed needs no sheet yet. */
function isShown({ settlement, inBook }: BookRound): boolean {
  return inBook.closing !== null || settlement.visits.some(({ counts }) => counts.length > 0);
}
