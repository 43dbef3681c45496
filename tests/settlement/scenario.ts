import { takeReads } from '../../src/captures/index.js';
import { makeFinding } from '../../src/findings/index.js';
import { gatherHistories, type TakenRead } from '../../src/interval/index.js';
import type { CaptureListRow, CaptureReason, CountRow, MachineRow, PlanRow } from '../../src/model/index.js';
import type { Profile } from '../../src/profile/index.js';
import { readCaptures } from '../../src/read/index.js';
import { type RoundInputs, type SettleOptions, settleRound, type Visit } from '../../src/settlement/index.js';
import { type MachineReads, ReadsByMachine } from '../../src/settlement/machine-reads.js';
import { Roster } from '../../src/sheets/index.js';
import { buildCapture } from '../support/build-capture.js';

/** A row of the roster; what is not given is not stated. */
export function makeMachine(given: Partial<MachineRow> & { readonly machine: string }): MachineRow {
  return {
    asset: null,
    serial: null,
    location: null,
    route: null,
    driver: null,
    currency: null,
    decimals: null,
    hasCash: null,
    hasBills: null,
    hasCard: null,
    profile: null,
    active: null,
    commission: null,
    commissionBase: null,
    tax: null,
    taxIncluded: null,
    place: { file: 'machines.csv', row: 2 },
    ...given,
  };
}

/**
 * A row of the count sheet.
 *
 * @param when - a date, or a date and time
 */
export function makeCount(
  machine: string,
  when: string,
  given: Partial<Omit<CountRow, 'machine' | 'visitedAt' | 'place'>> & { readonly row?: number } = {},
): CountRow {
  const { row = 2, ...rest } = given;
  return {
    machine,
    visitedAt: { date: when.slice(0, 10), time: when.length > 10 ? when.slice(11).padEnd(8, ':00') : null },
    bag: null,
    coins: null,
    bills: null,
    route: null,
    driver: null,
    countedAt: null,
    note: null,
    paidOut: null,
    filled: null,
    floatIssued: null,
    denominations: new Map(),
    capture: null,
    corrects: null,
    ...rest,
    place: { file: 'counts.csv', row },
  };
}

/** What a capture of the plain machine of these tests shows. Counters are since initialisation, from a base that is the same. */
export interface Shown {
  /** `2026-11-24T10:00`, the machine's clock. */
  readonly at: string;
  readonly box?: number;
  readonly tubes?: number;
  readonly bills?: number;
  readonly byHand?: number;
  readonly filled?: number;
  readonly card?: number;
  readonly sold?: number;
  /** Null: a machine that gives no columns. */
  readonly price?: number | null;
  /** Cash sales, and change given; by default customers pay to the coin. */
  readonly cashSales?: number;
  readonly dispensed?: number;
  /** What the captures list says. */
  readonly reason?: CaptureReason;
  readonly receivedAt?: string;
  readonly bag?: string;
  readonly listedMachine?: string;
  /** Bytes that do not fit their integrity value. */
  readonly damaged?: boolean;
  /** No integrity value at all. */
  readonly unsealed?: boolean;
  readonly asset?: string | null;
  readonly serial?: string;
  readonly board?: string;
  /** ID4, e.g. `2*978*EUR`; null leaves it out. */
  readonly money?: string | null;
  /** What stands in place of CA3, CA4 or CA10; null leaves it out. */
  readonly ca3?: string | null;
  readonly ca4?: string | null;
  readonly ca10?: string | null;
  /** Since the last reset: to the box, and bills. */
  readonly boxSinceReset?: number;
  readonly billsSinceReset?: number;
  /** Value of paid vends since the last reset. */
  readonly va1Reset?: number;
  readonly appended?: string;
}

const BASE = 100_000;

/** The capture's bytes. Everything sold is column 11. */
export function writeCapture(shown: Shown): Uint8Array {
  const { at, box = 0, tubes = 0, bills = 0, byHand = 0, filled = 0, card = 0, sold = 0, price = 100 } = shown;
  const {
    asset = 'A1',
    serial = 'S1',
    board = 'B1',
    money = '2*978*EUR',
    boxSinceReset = 0,
    billsSinceReset = 0,
  } = shown;
  const cash = box + tubes + bills;
  const { cashSales = cash, dispensed = 0 } = shown;
  const cardVends = shown.card === undefined ? 0 : 50;
  const paid = BASE + cashSales + (shown.card === undefined ? 0 : 5000 + card);
  const segments = [
    `ID1*${serial}*MODEL-A*1.0***${asset ?? ''}`,
    `CB1*${board}*CB*1`,
    ...(money === null ? [] : [`ID4*${money}`]),
    `ID5*${at.slice(2, 10).replaceAll('-', '')}*${at.slice(11, 16).replace(':', '')}`,
    `VA1*${paid}*${1000 + sold}*${shown.va1Reset ?? 0}*0`,
    `CA2*${BASE + cashSales}*${1000 + sold - cardVends}*0*0`,
    ...(shown.ca3 === null
      ? []
      : [
          shown.ca3 ??
            `CA3*${boxSinceReset + billsSinceReset}*${boxSinceReset}*0*${billsSinceReset}*${BASE + cash}*${20_000 + box}*${30_000 + tubes}*${50_000 + bills}`,
        ]),
    ...(shown.ca4 === null ? [] : [shown.ca4 ?? `CA4*0*0*${10_000 + dispensed}*${500 + byHand}`]),
    ...(shown.ca10 === null ? [] : [shown.ca10 ?? `CA10*0*${700 + filled}`]),
    `CA15*${4000 + tubes - dispensed - byHand + filled}`,
    ...(shown.card === undefined ? [] : [`DA2*${5000 + card}*${cardVends}*0*0`]),
    ...(price === null ? [] : [`PA1*11*${price}*Oat bar`, `PA2*${1000 + sold}*${paid}*0*0`]),
  ];
  return buildCapture(segments, {
    ...(shown.damaged ? { crc: 'wrong' } : shown.unsealed ? { crc: 'none' } : {}),
    ...(shown.appended === undefined ? {} : { stAppend: shown.appended }),
  });
}

/** What a settlement is made from, in short. */
export interface Scenario {
  /** Captures by file. */
  readonly captures: Readonly<Record<string, Shown>>;
  readonly counts: readonly CountRow[];
  /** Default: machine M1 with asset A1, in EUR, on route R1, driven by Kim. None: an empty list. */
  readonly machines?: readonly MachineRow[];
  readonly profiles?: readonly Profile[];
  readonly plan?: readonly PlanRow[];
  readonly countFindings?: RoundInputs['countFindings'];
  readonly countMoney?: RoundInputs['countMoney'];
}

export const M1 = makeMachine({
  machine: 'M1',
  asset: 'A1',
  location: 'Foyer',
  route: 'R1',
  driver: 'Kim',
  currency: 'EUR',
});

/** The captures of a scenario, taken in with its roster. */
export function takeScenario({ captures, machines = [M1], profiles = [], plan = [] }: Omit<Scenario, 'counts'>): {
  roster: Roster;
  reads: TakenRead[];
} {
  const capturesList = Object.entries(captures).flatMap(
    ([file, { reason, receivedAt, bag, listedMachine }]): CaptureListRow[] =>
      [reason, receivedAt, bag, listedMachine].every((given) => given === undefined)
        ? []
        : [
            {
              file,
              reason: reason ?? null,
              receivedAt: receivedAt ?? null,
              bag: bag ?? null,
              machine: listedMachine ?? null,
              signal: null,
              filled: null,
              place: { file: 'captures.csv', row: 2 },
            },
          ],
  );
  const roster = new Roster({ machines, capturesList, profiles, plan });
  const reads = Object.entries(captures).flatMap(([file, shown]) =>
    takeReads(file, readCaptures(writeCapture(shown)).reads, {
      roster,
      check: (read) =>
        read.integrity.state === 'damaged'
          ? [makeFinding('integrity-damaged', 'the bytes do not fit')]
          : read.integrity.state === 'absent'
            ? [makeFinding('integrity-absent', 'no integrity value', { file })]
            : [],
    }),
  );
  return { roster, reads };
}

/** Settle a scenario, as `settleRound` does. */
export function settle(scenario: Scenario, options: SettleOptions = {}) {
  const { counts, countFindings = [], countMoney } = scenario;
  const inputs = { ...takeScenario(scenario), counts, countFindings };
  return settleRound(countMoney === undefined ? inputs : { ...inputs, countMoney }, options);
}

/** All visits of a scenario, in the order of the round. */
export function visitsOf(scenario: Scenario, options: SettleOptions = {}): readonly Visit[] {
  return settle(scenario, options).settlements.flatMap(({ visits }) => visits);
}

/** The codes of what is said of a visit, in order. */
export const codesOf = ({ findings }: Visit): string[] => findings.map(({ code }) => code);

/** What is said of a visit under a code; fails when nothing is. */
export function messageOf(visit: Visit, code: string): string {
  const found = visit.findings.find((finding) => finding.code === code);
  if (found === undefined) throw new Error(`no ${code} among ${codesOf(visit).join(', ')}`);
  return found.message;
}

/** All reads of the machine M1, or of another, as the settlement looks at them. */
export function readsOf(scenario: Omit<Scenario, 'counts'>, machine = 'M1'): MachineReads {
  const { reads, roster } = takeScenario(scenario);
  const found = new ReadsByMachine(gatherHistories(reads, roster)).find(machine);
  if (found === null) throw new Error(`no reads of ${machine}`);
  return found;
}
