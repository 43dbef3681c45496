import { type Finding, makeFinding, printable } from '../../findings/index.js';
import { type CountRow, groupBy, type LocalDate } from '../../model/index.js';
import type { Roster } from '../../sheets/index.js';
import type { BookStore, EntryToRecord } from '../store/index.js';
import { type CountHistory, findHistory, isHeld, loadHistories, nameOfCount } from './book-counts.js';
import { fillIn, isSameCount, listChanged, sayDiffers, sayLabelTwice, sayReplaced } from './change-count.js';
import type { CountBody } from './count-shapes.js';
import type { CountSheet } from './count-sheet.js';
import {
  keyOfCount,
  keyOfUnusable,
  makeCorrectionEntry,
  makeCountEntry,
  makeUnusableEntry,
  makeWithdrawalEntry,
  toCountBody,
} from './make-count-entries.js';
import { pinCapture } from './pin-capture.js';
import type { PlannedBook } from './planned-book.js';

/** Who records, and when. */
export interface Signature {
  /** Null for a run by itself, which corrects and closes nothing. */
  readonly by: string | null;
  /** An instant in UTC, such as `2026-11-24T22:15:00.000Z`. */
  readonly recordedAt: string;
  /** Why counts are corrected or taken out; null when they are not, or when each row says so in its note. */
  readonly reason: string | null;
}

/** What is said of counts. */
export interface CountWork {
  readonly sheet: CountSheet | null;
  /** What the office says of the machines. */
  readonly roster: Roster;
  /** The day the sheet is given for. */
  readonly day: LocalDate;
  /** Rows take the place of the bags that they name by machine, visit and label. */
  readonly isCorrection: boolean;
  /** The entry that the sheet's one row takes the place of. */
  readonly corrects: number | null;
  /** The entry of a count that is none. */
  readonly withdraw: number | null;
}

/** What came of it besides the entries. */
export interface CountPlan {
  /** What a person has to know; nothing keeps the rest from being recorded. */
  readonly findings: readonly Finding[];
  /** Corrections that cannot be made. With one of them none is: the rows of a sheet take hold together. */
  readonly refusals: readonly Finding[];
}

/**
 * Plan the entries of what is said of counts, in a book of one size.
 *
 * A bag that the book has counts as it was entered: a row that says otherwise is a doubt and changes nothing, unless it is
 * said to be a correction. A row that was replaced or taken out since is not entered a second time.
 */
export async function planCounts(book: PlannedBook, work: CountWork, signature: Signature): Promise<CountPlan> {
  const plan = new CountPlanning(book, work, signature);
  await plan.make();
  return plan;
}

class CountPlanning implements CountPlan {
  readonly findings: Finding[] = [];
  readonly refusals: Finding[] = [];
  readonly #book: PlannedBook;
  readonly #work: CountWork;
  readonly #signature: Signature;

  constructor(book: PlannedBook, work: CountWork, signature: Signature) {
    this.#book = book;
    this.#work = work;
    this.#signature = signature;
  }

  async make(): Promise<void> {
    const { sheet, corrects, withdraw, isCorrection } = this.#work;
    if (withdraw !== null) await this.#withdraw(withdraw);
    if (sheet === null) return;
    const { rows, unusable = [] } = sheet;
    const named = rows.filter((row) => corrects !== null || row.corrects !== null);
    if (corrects !== null && rows.length + unusable.length !== 1)
      this.#refuse(`--corrects names one entry, and the sheet has ${rows.length + unusable.length} rows`, ONE_ROW);
    else await this.#correct(named);
    if (isCorrection || named.length > 0) for (const row of unusable) this.#refuse(row.why, MEND_ROW, row.place);
    const rest = rows.filter((row) => !named.includes(row));
    await this.#enter(rest);
    for (const row of unusable) {
      const key = keyOfUnusable(row, row.visitedAt?.date ?? this.#work.day);
      if (!(await hasKey(this.#book.store, key))) {
        const { by, recordedAt } = this.#signature;
        this.#book.add(makeUnusableEntry(row, { day: this.#work.day, by, recordedAt }));
      }
    }
  }

  async #withdraw(number: number): Promise<void> {
    const history = await this.#find(number);
    if (history === null) return;
    if (history.kind === 'count-withdrawn' || history.entry !== number) this.#refuseReplaced(history, number);
    else this.#plan(null, (reasoned) => makeWithdrawalEntry(history, reasoned));
  }

  /** Rows that name the entry which they take the place of: all find it as it was before any of them. */
  async #correct(rows: readonly CountRow[]): Promise<void> {
    const entries: (() => void)[] = [];
    const seen = new Set<number>();
    for (const row of rows) {
      const number = this.#work.corrects ?? row.corrects!;
      const history = await this.#find(number, row);
      if (history === null) continue;
      if (seen.has(history.first)) {
        this.#refuse(`entry ${number} is corrected by more than one row`, 'Leave one of the rows.', row.place);
        continue;
      }
      seen.add(history.first);
      const body = await this.#bodyOf(row);
      const now = history.body === null ? body : { ...fillIn(history.body, body, true), by: body.by };
      // Said once more, it is done already.
      if (history.kind !== 'count-withdrawn' && history.body !== null && isSameCount(history.body, now)) continue;
      if (history.entry !== number) this.#refuseReplaced(history, number, row);
      else entries.push(() => this.#plan(row, (reasoned) => makeCorrectionEntry(history, now, reasoned)));
    }
    for (const add of entries) add();
  }

  /** Rows that name no entry: bags that the book has, or has not. */
  async #enter(rows: readonly CountRow[]): Promise<void> {
    const dates = rows.map(({ visitedAt }) => visitedAt.date).sort();
    if (dates.length === 0) return;
    const histories = await loadHistories(this.#book.store, { dayFrom: dates[0]!, dayTo: dates.at(-1)! });
    const held = groupBy(histories.filter(isHeld), ({ body }) => nameOfCount(body!));
    const numbers = new Map<string, number>();
    for (const row of rows) {
      const name = nameOfCount(row);
      const number = (numbers.get(name) ?? 0) + 1;
      numbers.set(name, number);
      const known = held.get(name)?.[number - 1];
      if (known !== undefined) await this.#compare(known, row);
      else await this.#enterOne(row, name, histories);
    }
  }

  async #compare(known: CountHistory, row: CountRow): Promise<void> {
    const now = fillIn(known.body!, await this.#bodyOf(row));
    if (listChanged(known.body!, now).length === 0) return;
    if (this.#work.isCorrection)
      this.#plan(row, (reasoned) => makeCorrectionEntry(known, { ...now, by: reasoned.by }, reasoned));
    else this.findings.push(sayDiffers(known, known.body!, now, row));
  }

  async #enterOne(row: CountRow, name: string, histories: readonly CountHistory[]): Promise<void> {
    const replaced = histories.find((history) => wasOnce(history, name, row));
    if (this.#work.isCorrection) {
      this.#refuseUnmatched(row, replaced);
      return;
    }
    if (replaced !== undefined) {
      this.findings.push(sayReplaced(replaced, row));
      return;
    }
    const { bag, visitedAt } = row;
    const twin = histories
      .filter(isHeld)
      .find(({ body }) => bag !== null && body!.bag === bag && body!.visitedAt.date === visitedAt.date);
    if (twin !== undefined) this.findings.push(sayLabelTwice(twin, twin.body!, row));
    let number = 1;
    while (await hasKey(this.#book.store, keyOfCount(name, number))) number++;
    this.#book.add(makeCountEntry(keyOfCount(name, number), await this.#bodyOf(row), this.#signature.recordedAt));
  }

  async #bodyOf(row: CountRow): Promise<CountBody> {
    const { sheet, roster } = this.#work;
    const { money } = sheet!;
    return toCountBody(row, {
      currency: money.currencyOf(row.machine),
      decimals: money.decimalsOf(row.machine) ?? money.defaultDecimals,
      captureEntry: await pinCapture(this.#book.store, row, roster),
      by: this.#signature.by,
    });
  }

  /** The bag that an entry is about; null, and refused, where it is about none. */
  async #find(number: number, row: CountRow | null = null): Promise<CountHistory | null> {
    const history = await findHistory(this.#book.store, number);
    if (history === null)
      this.#refuse(
        `entry ${number} is no count in the book`,
        'Name the entry of the count: coilbook book entries --kind count-entered lists them.',
        row?.place,
      );
    return history;
  }

  /** Plan what needs somebody who says so, and why. */
  #plan(
    row: CountRow | null,
    make: (reasoned: { by: string; recordedAt: string; reason: string }) => EntryToRecord,
  ): void {
    const { by, recordedAt } = this.#signature;
    const reason = this.#signature.reason ?? row?.note ?? null;
    if (by === null || reason === null)
      this.#refuse(
        'a correction needs who makes it, and why',
        'Give --by and --reason, or a note in the row.',
        row?.place,
      );
    else this.#book.add(make({ by, recordedAt, reason }));
  }

  #refuseReplaced({ entry, kind }: CountHistory, number: number, row: CountRow | null = null): void {
    const what = kind === 'count-withdrawn' ? 'taken out' : 'corrected';
    const by = entry === number ? 'already' : `by entry ${entry} already`;
    this.#refuse(`entry ${number} was ${what} ${by}`, `Look at entry ${entry}, and name that one.`, row?.place);
  }

  #refuseUnmatched({ machine, bag, visitedAt, place }: CountRow, replaced: CountHistory | undefined): void {
    const name = bag === null ? 'the bag' : `bag ${printable(bag, 60)}`;
    const what = `no count in the book is ${name} of machine ${printable(machine, 60)} of ${visitedAt.date}`;
    const advice =
      replaced === undefined
        ? 'Where machine, date or label were wrong, name the entry that the row corrects: --corrects, or a column corrects.'
        : `It was that until entry ${replaced.entry}: name that one with --corrects ${replaced.entry}.`;
    this.#refuse(what, advice, place);
  }

  #refuse(what: string, advice: string, place: CountRow['place'] | undefined = undefined): void {
    const where = place === undefined ? '' : `${printable(place.file, 200)}, row ${place.row}: `;
    const message = `Nothing was corrected, since ${where}${what}.`.replace(/\.\.$/, '.');
    this.refusals.push(makeFinding('correction-refused', message, { ...place, advice }));
  }
}

const ONE_ROW = 'Give a sheet of one row, or a column corrects with an entry for each row.';
const MEND_ROW = 'Correct the row; all rows of a correction take hold together.';

/**
 * Whether a row says what the book had of a bag once. One without a label is known by its amounts alone: another bag may
 * have been collected at that machine and time.
 */
function wasOnce({ versions, kind }: CountHistory, name: string, { bag, coins, bills }: CountRow): boolean {
  const isOut = kind === 'count-withdrawn';
  const last = versions.at(-1);
  if (last === undefined || (!isOut && nameOfCount(last) === name)) return false;
  return versions.some(
    (body) => nameOfCount(body) === name && (bag !== null || (body.coins === coins && body.bills === bills)),
  );
}

async function hasKey(store: BookStore, key: string): Promise<boolean> {
  for await (const _ of store.entries({ key })) return true;
  return false;
}
