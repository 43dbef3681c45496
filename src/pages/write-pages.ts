import type { Day } from '../day/index.js';
import { DayDigest, makeDayPages } from './day/index.js';
import { makeSite, type PageFile, SafeNames, type Site, type SiteGiven } from './frame/index.js';
import type { MachinePagesMaker, PagesBatch } from './machine-pages-maker.js';
import { makeSettlementPages, type SettlementLine, type SheetRound } from './settlement/index.js';

/** What pages are made with. */
export interface PagesOptions extends SiteGiven {
  readonly machinePages: MachinePagesMaker;
  /**
   * Whether rounds are given apart (`addRound`), from a book that says how they were closed. Else the sheets are made of
   * the parts' own settlements, none of which is closed.
   */
  readonly hasRounds?: boolean;
}

/**
 * Makes the pages of a day that comes in parts, as `DayWriter` makes its tables: what a part needs is held while it is
 * worked off; only what the day's own page says of it is kept until the end.
 *
 * @example
 * const pages = new PagesWriter({ day: '2026-11-23', book: await store.head(), hasRounds: true, machinePages: makeMachinePages });
 * for (const batch of batches) for (const file of pages.add(batch)) save(file);
 * for (const round of rounds) for (const file of pages.addRound(round)) save(file); // with hasRounds
 * for (const file of pages.end(day)) save(file);
 */
export class PagesWriter {
  readonly #site: Site;
  readonly #options: PagesOptions;
  readonly #digest = new DayDigest();
  readonly #settlements: SettlementLine[] = [];
  readonly #names = new SafeNames('settlement-');

  constructor(options: PagesOptions) {
    this.#options = options;
    this.#site = makeSite(options);
  }

  /**
   * The pages of a part's machines and settlements. They are made one by one as they are asked for: all have to be,
   * before the next part is added.
   */
  *add(batch: PagesBatch): Generator<PageFile, void, undefined> {
    const { machinePages, hasRounds = false } = this.#options;
    this.#digest.add(batch.inputs, batch.day);
    yield* machinePages(batch, this.#site);
    if (hasRounds) return;
    for (const settlement of batch.day.settlements) yield* this.addRound({ settlement, inBook: null });
  }

  /**
   * The sheets of a settlement, in place of the parts' own: a closed one as it stands, and as it was closed. To be given
   * after the parts, so that it can lead to the machines' pages.
   */
  addRound(round: SheetRound): readonly PageFile[] {
    const { line, files } = makeSettlementPages(round, this.#names, this.#site);
    this.#settlements.push(line);
    return files;
  }

  /**
   * The pages that need the whole day.
   *
   * @param day - the parts joined (`joinDays`); rows and settlements may be left out, as `DayWriter.end` does
   */
  end(day: Day): PageFile[] {
    return makeDayPages({ day, digest: this.#digest, settlements: this.#settlements }, this.#site);
  }
}
