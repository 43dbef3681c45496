import { type DaySpan, haveCommonDay } from './days.js';

/** One amount of a sequence in order of time. */
export interface Dated {
  /** Above 0; null when it is not known, and then it is part of no sum. */
  readonly amount: number | null;
  /** The days that it is about. */
  readonly span: DaySpan;
  /**
   * Whether nothing is wrong when it is left over, since its counterpart may lie before or after what is known; null when it
   * should not be.
   */
  readonly mayBeLeft: 'before' | 'after' | 'either' | null;
}

/** A deposit; it is known in full. */
export interface DatedDeposit extends Dated {
  readonly amount: number;
  /** The sales that are its alone, from the first index up to but not including the second: it stands for all of them or none. */
  readonly owns: readonly [from: number, to: number] | null;
  /** How many rows that it can be exchanged for come after it: of these the last are left over first. */
  readonly equalAfter: number;
}

/** A run of each sequence, from the first index up to but not including the second. */
export interface AlignedPart {
  /**
   * `equal`: the two runs have one sum, and no other reading is as good. `rest`: nothing in them fits. `several`: more than
   * one reading is equally good, so that only the runs as a whole stand against each other.
   */
  readonly kind: 'equal' | 'rest' | 'several';
  readonly sales: readonly [from: number, to: number];
  readonly deposits: readonly [from: number, to: number];
}

/**
 * Align two sequences of amounts by equal sums of consecutive ones, first in first out: money of a sale and a deposit are
 * put together only where they have a day in common. Of all readings those are taken that leave over the fewest amounts
 * that should not be, then the fewest at all, then those in the most parts, then those that leave over what is nearest to the
 * end beyond which its counterpart may lie, since processors pay in order (common practice), then those that leave over the
 * last of rows that can be exchanged for each other; where several are equally good, none is chosen.
 *
 * Time and memory grow with the product of the lengths: for a year of daily amounts that is 133,000 steps.
 */
export function alignSums(sales: readonly Dated[], deposits: readonly DatedDeposit[]): AlignedPart[] {
  return mergeRests(new Readings(sales, deposits).cut());
}

/**
 * All readings, as ways over nodes. A node is twice the number of a place in both sequences (sale × width + deposit), plus 1
 * after a deposit was left over: from then on no sale is, until two sums meet, so that each reading is one way.
 */
class Readings {
  readonly #sales: readonly Dated[];
  readonly #deposits: readonly DatedDeposit[];
  readonly #width: number;
  /** One part less, one amount left over and one wrongly left over weigh 1, this, and its square. */
  readonly #weight: number;
  /** A step away from an end weighs more than all equal rows together. */
  readonly #detourWeight: number;
  /** The least cost from each node to the end, and what that way has in steps away from either end and from the last equal row. */
  readonly #costs: Float64Array;
  readonly #detours: Float64Array;
  /** The place where the sums that begin at each place first meet; -1 where they do not. */
  readonly #meetings: Int32Array;

  constructor(sales: readonly Dated[], deposits: readonly DatedDeposit[]) {
    this.#sales = sales;
    this.#deposits = deposits;
    this.#width = deposits.length + 1;
    this.#weight = sales.length + deposits.length + 2;
    this.#detourWeight = deposits.reduce((sum, { equalAfter }) => sum + equalAfter, 1);
    const places = (sales.length + 1) * this.#width;
    this.#costs = new Float64Array(2 * places);
    this.#detours = new Float64Array(2 * places);
    this.#meetings = new Int32Array(places);
    this.#fill(places);
  }

  #fill(places: number): void {
    let [least, shortest] = [0, 0];
    const consider = (to: number, cost: number, detour: number): void => {
      const whole = cost + this.#costs[to]!;
      const way = detour + this.#detours[to]!;
      if (whole < least || (whole === least && way < shortest)) [least, shortest] = [whole, way];
    };
    // At the end there is nothing left to cost anything: both its nodes stay at 0.
    this.#meetings[places - 1] = -1;
    for (let place = places - 2; place >= 0; place--) {
      this.#meetings[place] = this.#findMeeting(Math.floor(place / this.#width), place % this.#width);
      for (const node of [2 * place + 1, 2 * place]) {
        [least, shortest] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
        this.#eachStep(node, consider);
        this.#costs[node] = least;
        this.#detours[node] = shortest;
      }
    }
  }

  #eachStep(node: number, visit: (to: number, cost: number, detour: number) => void): void {
    const place = Math.floor(node / 2);
    const isPastSales = node % 2 === 1;
    const sale = Math.floor(place / this.#width);
    const deposit = place % this.#width;
    const meeting = this.#meetings[place]!;
    if (meeting >= 0) visit(2 * meeting, -1, 0);
    if (!isPastSales && sale < this.#sales.length) {
      visit(
        2 * (place + this.#width),
        this.#costOfLeaving(this.#sales[sale]!),
        detourOf(this.#sales, sale) * this.#detourWeight,
      );
    }
    if (deposit < this.#deposits.length) {
      const cost = this.#costOfLeaving(this.#deposits[deposit]!);
      const detour = detourOf(this.#deposits, deposit) * this.#detourWeight + this.#deposits[deposit]!.equalAfter;
      visit(2 * (place + 1) + 1, cost, detour);
    }
  }

  #costOfLeaving({ amount, mayBeLeft }: Dated): number {
    if (amount === null) return 0;
    return this.#weight + (mayBeLeft === null ? this.#weight ** 2 : 0);
  }

  /**
   * Where the sums from here on first are equal, paying the sales off one after the other. Each deposit must have a day in
   * common with every sale it pays for, and pay for all that are its own. Later meetings are this one and others after it.
   */
  #findMeeting(sale: number, deposit: number): number {
    let due = this.#sales[sale]?.amount ?? null;
    let paid = this.#deposits[deposit]?.amount ?? null;
    let [s, d] = [sale, deposit];
    while (due !== null && paid !== null) {
      if (!haveCommonDay(this.#sales[s]!.span, this.#deposits[d]!.span)) return -1;
      if (due === paid && this.#ownsOnly(deposit, d, sale, s)) return (s + 1) * this.#width + d + 1;
      const settled = Math.min(due, paid);
      due = due === settled ? (this.#sales[++s]?.amount ?? null) : due - settled;
      paid = paid === settled ? (this.#deposits[++d]?.amount ?? null) : paid - settled;
    }
    return -1;
  }

  /** Whether what the deposits of a run own lies within the run of sales. */
  #ownsOnly(firstDeposit: number, lastDeposit: number, firstSale: number, lastSale: number): boolean {
    return this.#deposits
      .slice(firstDeposit, lastDeposit + 1)
      .every(({ owns }) => owns === null || (owns[0] >= firstSale && owns[1] <= lastSale + 1));
  }

  /** The parts between the places that all best readings pass through. */
  cut(): AlignedPart[] {
    const steps = this.#bestSteps();
    // Every step leads to a higher level, and so forward in this order.
    const places = [...steps.keys()].sort((a, b) => this.#level(a) - this.#level(b));
    const order = new Map(places.map((place, i) => [place, i]));
    const parts: AlignedPart[] = [];
    let last = 0;
    let reach = 0;
    for (const [i, place] of places.entries()) {
      // No best step leads past this place, so every best reading passes through it.
      if (reach <= i && i > 0) {
        parts.push(this.#part(places[last]!, place, i === last + 1));
        last = i;
      }
      for (const to of steps.get(place)!) reach = Math.max(reach, order.get(to)!);
    }
    return parts;
  }

  /** Each place on a best reading, with the places that a best step leads to from it. */
  #bestSteps(): Map<number, Set<number>> {
    const steps = new Map<number, Set<number>>();
    const seen = new Set([0]);
    const open = [0];
    for (let node = open.pop(); node !== undefined; node = open.pop()) {
      const place = Math.floor(node / 2);
      const targets = steps.get(place) ?? new Set();
      steps.set(place, targets);
      this.#eachStep(node, (to, cost, detour) => {
        const isBest =
          cost + this.#costs[to]! === this.#costs[node] && detour + this.#detours[to]! === this.#detours[node];
        if (!isBest) return;
        targets.add(Math.floor(to / 2));
        if (!seen.has(to)) open.push(to);
        seen.add(to);
      });
    }
    return steps;
  }

  #level(place: number): number {
    return Math.floor(place / this.#width) + (place % this.#width);
  }

  #part(from: number, to: number, isOneStep: boolean): AlignedPart {
    const sales = [Math.floor(from / this.#width), Math.floor(to / this.#width)] as const;
    const deposits = [from % this.#width, to % this.#width] as const;
    const isMeeting = sales[1] > sales[0] && deposits[1] > deposits[0];
    return { kind: isOneStep ? (isMeeting ? 'equal' : 'rest') : 'several', sales, deposits };
  }
}

/** How far from the end beyond which its counterpart may lie. */
function detourOf(sequence: readonly Dated[], index: number): number {
  const { amount, mayBeLeft } = sequence[index]!;
  if (amount === null) return 0;
  return mayBeLeft === 'before' ? index : mayBeLeft === 'after' ? sequence.length - 1 - index : 0;
}

function mergeRests(parts: readonly AlignedPart[]): AlignedPart[] {
  const merged: AlignedPart[] = [];
  for (const part of parts) {
    const last = merged.at(-1);
    if (part.kind !== 'rest' || last?.kind !== 'rest') {
      merged.push(part);
      continue;
    }
    merged[merged.length - 1] = {
      kind: 'rest',
      sales: [last.sales[0], part.sales[1]],
      deposits: [last.deposits[0], part.deposits[1]],
    };
  }
  return merged;
}
