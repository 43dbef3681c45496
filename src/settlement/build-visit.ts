import { type Finding, makeFinding, printable } from '../findings/index.js';
import { bestTime, buildInterval, type Interval, type TakenRead } from '../interval/index.js';
import { add, type CountRow, describeMoney, type MachineRow, type Minor } from '../model/index.js';
import type { Roster } from '../sheets/index.js';
import { type ExpectedCash, expectCash } from './expected-cash.js';
import { compareCounted, stateOf } from './judge-over-short.js';
import type { MachineReads } from './machine-reads.js';
import { type Collection, momentOfCount } from './machine-visits.js';
import type { CashByKind, Tolerance, Visit, VisitState } from './settlement.js';

/** What a visit is worked out with. */
export interface VisitContext {
  /** The operator's name of the machine, and its row on the roster. */
  readonly name: string;
  readonly machine: MachineRow | null;
  readonly reads: MachineReads;
  readonly roster: Roster;
  readonly tolerance: Tolerance;
  readonly ignoreHandMoves: boolean;
}

const NOTHING: CashByKind = { coins: null, bills: null };
const RECOUNT =
  'Count again with a second person before anyone is asked about it: a difference between two counts is no proof of wrongdoing.';

/** Work out one collection: what was expected, counted, over or short, and how it stands. */
export function buildVisit(collection: Collection, context: VisitContext): Visit {
  return new VisitBuilder(collection, context).build();
}

class VisitBuilder {
  readonly #collection: Collection;
  readonly #context: VisitContext;
  readonly #findings: Finding[] = [];
  readonly #place: { machine: string; file?: string; row?: number };

  constructor(collection: Collection, context: VisitContext) {
    this.#collection = collection;
    this.#context = context;
    const place = collection.counts[0]?.place;
    this.#place = { machine: context.name, ...(place === undefined ? {} : { file: place.file, row: place.row }) };
    this.#findings.push(...collection.match.findings);
  }

  build(): Visit {
    const { counts, joined, position, opening } = this.#collection;
    const { reads } = this.#context;
    const rows = [...joined, ...counts];
    const from = reads.ordered[opening] ?? null;
    const to = position >= 0 ? reads.ordered[position]! : this.#lastReadBefore(opening);
    const isBlocked = this.#sayWhatIsInTheWay(from);
    const pieces =
      from === null || to === null || from === to ? null : this.#pieces(opening, reads.ordered.indexOf(to));
    const interval = from !== null && to !== null && from !== to ? this.#interval(from, to) : null;
    const expected = pieces === null ? null : expectCash(pieces, this.#hand(rows));
    const counted = { coins: sumCounted(rows, 'coins'), bills: sumCounted(rows, 'bills') };
    const state = this.#state(expected, pieces, counted, isBlocked);
    const isSettled = state === 'agreed' || state === 'over' || state === 'short';
    const overShort = isSettled ? compareCounted(expected!.cash, counted) : { ...NOTHING, total: null };
    if (interval !== null && position >= 0) this.#findings.push(...interval.findings);
    return this.#assemble({ rows, from, interval, expected, counted, overShort, state });
  }

  #assemble(parts: {
    rows: readonly CountRow[];
    from: TakenRead | null;
    interval: Interval | null;
    expected: ExpectedCash | null;
    counted: CashByKind;
    overShort: Visit['overShort'];
    state: VisitState;
  }): Visit {
    const { counts, match, joined, position } = this.#collection;
    const { name, machine, reads } = this.#context;
    const { rows, from, interval, expected, counted, overShort, state } = parts;
    const read = match.read;
    const money = read ?? from ?? reads.ordered.at(-1) ?? null;
    const last = counts.at(-1);
    return {
      machine: name,
      location: machine?.location ?? null,
      driver: last?.driver ?? machine?.driver ?? null,
      route: last?.route ?? machine?.route ?? null,
      visitedAt: last === undefined ? (read === null ? null : bestTime(read)) : visitedAtOf(last),
      bag: last?.bag ?? null,
      matchedBy: match.matchedBy,
      capture: read?.file ?? null,
      since: from?.file ?? null,
      sinceTime: from === null ? null : bestTime(from),
      currency: money?.currency ?? machine?.currency ?? null,
      decimals: money?.decimals ?? machine?.decimals ?? null,
      expected: expected?.cash ?? NOTHING,
      expectedIsFloor: expected !== null && (expected.isFloor || position < 0),
      expectedLines: expected?.lines ?? [],
      counted,
      overShort,
      state,
      jointBags: joined.length === 0 ? [] : rows.map(nameOfBag),
      interval,
      counts: rows,
      findings: this.#findings,
    };
  }

  /** Say what keeps the visit from being settled, before any figure is looked at. */
  #sayWhatIsInTheWay(from: TakenRead | null): boolean {
    const { counts, match, position, isOpeningAssumed, joined } = this.#collection;
    if (match.candidates.length > 0) this.#sayTwoCaptures(match.candidates);
    else if (match.read !== null && position < 0) this.#sayUnusable(match.read);
    else if (match.read === null) this.#sayNoCapture();
    if (counts.length > 1) this.#sayTwoCounts(counts);
    if (position >= 0 && from === null) this.#sayNoOpening();
    if (position >= 0 && isOpeningAssumed) this.#sayAssumedOpening(from!);
    if (position >= 0 && joined.length > 0) this.#sayJointBags([...joined, ...counts]);
    return position < 0 || counts.length > 1 || from === null;
  }

  #state(
    expected: ExpectedCash | null,
    pieces: readonly Interval[] | null,
    counted: CashByKind,
    isBlocked: boolean,
  ): VisitState {
    const { counts, match, position } = this.#collection;
    if (position < 0) return match.read === null && match.candidates.length === 0 ? 'unread' : 'unsettled';
    if (counts.length === 0) {
      this.#say('uncounted', 'A service read was taken, and no bag was counted for it.', {
        advice: 'Look for the bag and its count before the round is closed.',
      });
      return 'uncounted';
    }
    if (isBlocked || expected === null) return 'unsettled';
    if (expected.isFloor) {
      this.#sayFloor(pieces!);
      return 'unsettled';
    }
    const { total } = compareCounted(expected.cash, counted);
    if (total === null) {
      this.#sayNotKnown(expected.cash);
      return 'unsettled';
    }
    return this.#judge(total, expected.cash, counted);
  }

  #judge(total: Minor, expected: CashByKind, counted: CashByKind): VisitState {
    const state = stateOf(total, expected, this.#context.tolerance);
    const { coins, bills } = compareCounted(expected, counted);
    if (state === 'over' || state === 'short') {
      const parts = [
        coins === 0 ? '' : `coins ${this.#signed(coins!)}`,
        bills === 0 ? '' : `bills ${this.#signed(bills!)}`,
      ];
      const message = `${this.#money(Math.abs(total))} ${state} (${parts.filter((part) => part !== '').join(', ')}).`;
      this.#say(state, message, { advice: RECOUNT });
    } else if (coins! * bills! < 0) {
      const message = `Coins are off by ${this.#signed(coins!)} and bills by ${this.#signed(bills!)}; together they agree.`;
      this.#say('kinds-differ', message, { advice: 'Check whether money was counted as the other kind.' });
    }
    return state;
  }

  /** The last usable read before a bag without capture, but not before its opening: what is expected up to there. */
  #lastReadBefore(opening: number): TakenRead | null {
    const count = this.#collection.counts[0];
    if (count === undefined) return null;
    const moment = momentOfCount(count);
    const { ordered } = this.#context.reads;
    const before = ordered.filter((taken, i) => i >= opening && (bestTime(taken) ?? '9') < moment);
    return before.at(-1) ?? null;
  }

  /** The intervals from the opening to the visit: the direct one where it knows the cash, else one by one. */
  #pieces(opening: number, position: number): readonly Interval[] | null {
    const { ordered, intervalTo } = this.#context.reads;
    const direct = this.#interval(ordered[opening]!, ordered[position]!);
    if (direct === null) return null;
    const { cash, floor } = direct;
    if (position === opening + 1 || (cash.toCashBox !== null && cash.bills !== null && !floor)) return [direct];
    const chain = ordered.slice(opening + 1, position + 1).map((taken) => intervalTo.get(taken));
    return chain.every((interval) => interval !== undefined) ? chain : null;
  }

  #interval(from: TakenRead, to: TakenRead): Interval | null {
    const { asset } = from.read.machine;
    if (asset !== null && to.read.machine.asset !== null && asset !== to.read.machine.asset) return null;
    const known = this.#context.reads.intervalTo.get(to);
    return known?.from === from ? known : buildInterval(from, to, this.#context.roster);
  }

  #hand(counts: readonly CountRow[]): { counts: readonly CountRow[]; ignore: boolean } {
    return { counts, ignore: this.#context.ignoreHandMoves };
  }

  #say(code: Finding['code'], message: string, more: { advice?: string } = {}): void {
    this.#findings.push(makeFinding(code, message, { ...this.#place, ...more }));
  }

  #sayTwoCaptures(candidates: readonly TakenRead[]): void {
    const list = candidates
      .map((taken) => `${printable(taken.file)} (${bestTime(taken)?.slice(11, 16) ?? 'no time'})`)
      .join(', ');
    this.#say('two-captures', `Several captures fit this bag equally well: ${list}. None was chosen.`, {
      advice: 'Name the bag or the capture on the count sheet, or mark the service read in the captures list.',
    });
  }

  #sayUnusable(taken: TakenRead): void {
    const codes = [...new Set(taken.faults.map(({ code }) => code))].join(', ');
    const message = `The capture of this visit, ${printable(taken.file)}, has faults (${codes}) and cannot be used.`;
    this.#say('capture-unusable', message, {
      advice: 'Its bag is settled together with the next visit of this machine.',
    });
  }

  #sayNoCapture(): void {
    const message = 'There is no capture for this bag. What is expected is known only up to the last read before it.';
    this.#say('no-capture', message, { advice: 'Look for the capture; else the bag is settled with the next visit.' });
  }

  #sayTwoCounts(counts: readonly CountRow[]): void {
    const rows = counts.map((count) => `row ${count.place.row} (${nameOfBag(count)})`).join(', ');
    this.#say('two-counts', `More than one bag claims this visit: ${rows}.`, {
      advice: 'If the visit had several bags, enter them as one; else correct the row that is wrong.',
    });
  }

  #sayNoOpening(): void {
    const { read } = this.#collection.match;
    const box = read?.read.integer('CA302') ?? null;
    const bills = read?.read.integer('CA304') ?? null;
    const shown = [
      box === null ? '' : `${this.#money(box)} to the cash box`,
      bills === null ? '' : `bills ${bills} as the machine gives them`,
    ].filter((part) => part !== '');
    const indication =
      shown.length === 0 ? '' : ` Since its last reset the machine shows ${shown.join(' and ')}: an indication only.`;
    this.#say('no-opening', `There is no earlier collection of this machine to count from.${indication}`);
  }

  #sayAssumedOpening(from: TakenRead): void {
    const message = `Nothing says why captures were taken; ${printable(from.file)} is taken to be the last collection.`;
    this.#say('opening-assumed', message, {
      advice: 'Give a captures list with reasons, or the count of the visit before.',
    });
  }

  #sayJointBags(rows: readonly CountRow[]): void {
    const message = `${rows.length} bags are settled together here, since one had no usable capture: ${rows.map(nameOfBag).join(', ')}.`;
    this.#say('joint-bags', message);
  }

  #sayFloor(pieces: readonly Interval[]): void {
    const restart = pieces.find(({ pair }) => pair.restart !== null)?.pair.restart;
    if (restart === undefined || restart === null) {
      this.#say('unseen-reset', 'What is expected is a floor: counters were cleared by somebody else in between.');
      return;
    }
    const message = `The counters started again since the last collection (${restart.evidence}); what is expected is a floor.`;
    this.#say('restart-inside', message);
  }

  #sayNotKnown(expected: CashByKind): void {
    for (const kind of ['coins', 'bills'] as const) {
      const message =
        expected[kind] === null
          ? `What is expected in ${kind} is not known: the findings on the interval say why.`
          : `${this.#money(expected[kind])} is expected in ${kind}, and the sheet gives no count of them.`;
      const isMissing = expected[kind] === null || (expected[kind] !== 0 && this.#countedKind(kind) === null);
      if (isMissing) this.#say(expected[kind] === null ? 'cash-split' : 'uncounted', message);
    }
  }

  #countedKind(kind: 'coins' | 'bills'): Minor | null {
    return sumCounted([...this.#collection.joined, ...this.#collection.counts], kind);
  }

  #money(amount: Minor): string {
    const { match } = this.#collection;
    const { machine, reads } = this.#context;
    const money = match.read ?? reads.ordered.at(-1) ?? null;
    return describeMoney(
      amount,
      money?.decimals ?? machine?.decimals ?? null,
      money?.currency ?? machine?.currency ?? null,
    );
  }

  #signed(amount: Minor): string {
    return amount > 0 ? `+${this.#money(amount)}` : this.#money(amount);
  }
}

/** The bags' money of one kind; not known when any bag was not counted for it: the rest alone would be a wrong figure. */
function sumCounted(rows: readonly CountRow[], kind: 'coins' | 'bills'): Minor | null {
  return rows.length === 0 ? null : add(...rows.map((row) => row[kind]));
}

function visitedAtOf({ visitedAt }: CountRow): string {
  return visitedAt.time === null ? visitedAt.date : `${visitedAt.date}T${visitedAt.time}`;
}

function nameOfBag(count: CountRow): string {
  return count.bag === null ? `the bag of ${visitedAtOf(count).replace('T', ' ')}` : `bag ${printable(count.bag, 30)}`;
}
