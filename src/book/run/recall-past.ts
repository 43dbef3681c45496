import { outlineFigures, type Past, type PastStretch } from '../../attention/index.js';
import { type LocalDate, type LocalDateTime, moveDate } from '../../model/index.js';
import { fitsStep, KeptFigures, unpackGap } from '../kept/index.js';
import type { BookStep, BookStore } from '../store/index.js';

/** Days looked back, first and, where they give less than so many stretches, at most. */
const DAYS = [35, 120];
const ENOUGH = 5;

/** A machine, and where the reads of it that are at hand begin. */
interface PastOfMachine {
  /** As the book has it. */
  readonly key: string;
  /** Null when there are none. */
  readonly until: LocalDateTime | null;
}

/**
 * What machines did before the reads at hand, taken out of the book for those that it is asked of: see {@link during}. Of most
 * nobody asks, since what they usually sell matters only where something is the matter with them.
 */
export class RecalledPast implements Past {
  readonly #store: BookStore;
  readonly #day: LocalDate;
  readonly #machines = new Map<string, PastOfMachine>();
  readonly #recalled = new Map<string, readonly PastStretch[]>();
  readonly #missing = new Set<string>();

  constructor(store: BookStore, day: LocalDate) {
    this.#store = store;
    this.#day = day;
  }

  /** @param name - the key by which it is asked for */
  add(name: string, machine: PastOfMachine): void {
    this.#machines.set(name, machine);
  }

  keys(): MapIterator<string> {
    return this.#machines.keys();
  }

  /** Nothing where it is not at hand (yet). */
  get(name: string): readonly PastStretch[] | undefined {
    const recalled = this.#recalled.get(name);
    if (recalled === undefined && this.#machines.has(name)) this.#missing.add(name);
    return recalled;
  }

  /** Take out what machines did before it is asked for. */
  async load(names: Iterable<string>): Promise<void> {
    for (const name of [...names]) {
      const machine = this.#machines.get(name)!;
      this.#recalled.set(name, await recallPast(this.#store, machine, this.#day));
      this.#missing.delete(name);
    }
  }

  /** Do some work; again, where it asked for what was not at hand. */
  async during<T>(work: () => Promise<T>): Promise<T> {
    for (;;) {
      const done = await work();
      if (this.#missing.size === 0) return done;
      await this.load(this.#missing);
    }
  }
}

/** What a machine did up to a time, as it was worked out then; oldest first. */
async function recallPast(
  store: BookStore,
  { key, until }: PastOfMachine,
  day: LocalDate,
): Promise<readonly PastStretch[]> {
  const atTo = until ?? `${day}T23:59:59`;
  let past: PastStretch[] = [];
  for (const days of DAYS) {
    const from = moveDate(atTo.slice(0, 10) < day ? atTo.slice(0, 10) : day, -days);
    past = [];
    for (const step of await store.stepsOf(key, { atFrom: `${from}T00:00:00`, atTo })) {
      const stretch = outlineKept(step);
      if (stretch !== null) past.push(stretch);
    }
    if (past.length >= ENOUGH) break;
  }
  return past;
}

/** Null where it tells nothing, or is not what was worked out. */
function outlineKept(step: BookStep): PastStretch | null {
  if (!fitsStep(step) || unpackGap(step, String) !== null) return null;
  return outlineFigures(step.fromAt, step.toAt, new KeptFigures(step));
}
