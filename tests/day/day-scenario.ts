import { takeReads } from '../../src/captures/index.js';
import { type CaptureCheck, checkCapture } from '../../src/checks/index.js';
import { type Day, type DayInputs, makeDay } from '../../src/day/index.js';
import type { Finding } from '../../src/findings/index.js';
import { gatherHistories, type TakenRead } from '../../src/interval/index.js';
import type { LocalDate, LocalDateTime } from '../../src/model/index.js';
import { type Profile, profileSchema } from '../../src/profile/index.js';
import { readCaptures } from '../../src/read/index.js';
import { settleRound } from '../../src/settlement/index.js';
import {
  decimalsFromRoster,
  Roster,
  readCapturesList,
  readCounts,
  readMachines,
  readPlan,
} from '../../src/sheets/index.js';
import {
  defineMachine,
  type MachineConfig,
  type MachineGiven,
  type ReadRequest,
  SimulatedMachine,
  type SimulatedRead,
} from '../support/simulator/index.js';

/** The office's sheets, as text; a sheet that is not given is empty. */
export interface OfficeSheets {
  readonly machines?: string;
  readonly plan?: string;
  readonly counts?: string;
  readonly profiles?: readonly Partial<Profile>[];
}

/** What the captures list says of a capture. */
export interface Arrival {
  /** Default: the true time of the read; null where the list does not say. */
  readonly receivedAt?: LocalDateTime | null;
  readonly reason?: 'scheduled' | 'service';
  readonly filled?: 'yes' | 'no';
  readonly file?: string;
}

interface ArrivedFile extends Arrival {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly day: LocalDate;
}

export const ONE_MACHINE = 'machine,asset,location,route,currency\nM1,A100,Library,R7,EUR\n';

/** Captures of simulated machines arriving at an office, and what its day is made from. */
export class DayScenario {
  readonly #files: ArrivedFile[] = [];
  readonly #sheets: OfficeSheets;
  readonly findings: Finding[] = [];

  constructor(sheets: OfficeSheets = { machines: ONE_MACHINE }) {
    this.#sheets = sheets;
  }

  /** A read of a machine that arrives as it is taken. */
  take(machine: SimulatedMachine, request: ReadRequest, arrival: Arrival = {}): SimulatedRead {
    const read = machine.read(request);
    const at = read.snapshot.at;
    const file = arrival.file ?? `${at.replace(/[-:T]/g, '')}.dex`;
    this.addFile(file, read.bytes, { receivedAt: at, ...arrival, day: (arrival.receivedAt ?? at).slice(0, 10) });
    return read;
  }

  addFile(file: string, bytes: Uint8Array, arrival: Arrival & { readonly day: LocalDate }): void {
    this.#files.push({ ...arrival, file, bytes });
  }

  roster(): Roster {
    const machines = readMachines({ file: 'machines.csv', content: this.#sheets.machines ?? 'machine\n' }).rows;
    const money = decimalsFromRoster(machines, null);
    const plan = readPlan({ file: 'plan.csv', content: this.#sheets.plan ?? 'machine,column,price\n' }, money).rows;
    const lines = this.#files.map(({ file, receivedAt, reason, filled }) =>
      [file, (receivedAt ?? '').replace('T', ' '), reason ?? '', filled ?? ''].join(','),
    );
    const list = ['file,received_at,reason,filled', ...lines, ''].join('\n');
    const capturesList = readCapturesList({ file: 'list.csv', content: list }).rows;
    const profiles = (this.#sheets.profiles ?? []).map((profile) => profileSchema.parse(profile));
    return new Roster({ machines, plan, capturesList, profiles });
  }

  /** What is known on the evening of a day. */
  inputs(day: LocalDate, more: Partial<DayInputs> = {}): DayInputs {
    const roster = this.roster();
    const checks: CaptureCheck[] = [];
    const reads: TakenRead[] = [];
    for (const { file, bytes, day: arrived } of this.#files) {
      if (arrived > day) continue;
      const capture = readCaptures(bytes);
      reads.push(...takeReads(file, capture.reads, { roster }));
      if (arrived === day) checks.push(checkCapture(file, capture, { roster }));
    }
    const money = decimalsFromRoster(roster.books.machines, null);
    const sheet = { file: 'counts.csv', content: this.#sheets.counts ?? 'machine,visited_at,coins,bills\n' };
    const counts = readCounts(sheet, money).rows.filter(({ visitedAt }) => visitedAt.date <= day);
    const settlements = settleRound({ reads, counts, roster }, { day });
    const histories = gatherHistories(reads, roster);
    return { day, roster, checks, histories, settlements, findings: this.findings, ...more };
  }

  make(day: LocalDate, more: Partial<DayInputs> = {}): Day {
    return makeDay(this.inputs(day, more));
  }
}

/** A cash machine of two columns, 11 at 2.00 and 12 at 1.00, unless told otherwise. */
export function startMachine(given: MachineGiven = {}): SimulatedMachine {
  return new SimulatedMachine(startConfig(given));
}

export function startConfig(given: MachineGiven = {}): MachineConfig {
  return defineMachine({ startsAt: '2026-11-20T06:00:00', past: { changePercent: 0 }, ...given });
}

/** Sell a column for exact coins, a number of times, evenly until a moment. */
export function sell(machine: SimulatedMachine, column: string, times: number, until: LocalDateTime): void {
  const price = machine.columns.find((one) => one.column === column)!.price;
  for (let left = times; left > 0; left--) {
    machine.sellForCash(column, { coins: coinsFor(price) });
  }
  machine.advanceTo(until);
}

function coinsFor(price: number): number[] {
  const coins: number[] = [];
  let left = price;
  for (const coin of [200, 100, 50, 20, 10, 5]) {
    for (; left >= coin; left -= coin) coins.push(coin);
  }
  return coins;
}
