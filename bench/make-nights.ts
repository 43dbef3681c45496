import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { LocalDate } from '../src/model/index.js';
import { writeDate } from '../src/model/index.js';
import type { ColumnConfig, SimulatedMachine } from '../tests/support/simulator/index.js';
import { Dice, makeColumns, makeMachine } from './captures.js';

const DAYS_A_WEEK = 7;
const SALES_A_DAY = 12;
const COINS = [200, 100, 50, 20, 10];
const ROUTES = 5;

/** What came in on one night, on the disk. */
export interface Night {
  /** From 1. */
  readonly number: number;
  readonly day: LocalDate;
  /** The folder of captures, one a machine. */
  readonly captures: string;
  /** The captures list of that night. */
  readonly list: string;
  /** Bags of the visits of that day, as counted. */
  readonly counts: string;
}

/** What is the same every night. */
export interface NightSheets {
  readonly machines: string;
  readonly plan: string;
}

interface Machine {
  readonly columns: readonly ColumnConfig[];
  readonly simulated: SimulatedMachine;
}

/**
 * The nights of an operator with so many machines of 45 columns: every night one capture of each, as the telemetry brings
 * it; in place of it, once a week, the read at a driver's visit, whose bag is counted. The same in every run.
 */
export class NightMaker {
  readonly #folder: string;
  readonly #dice = new Dice(8);
  readonly #machines: readonly Machine[];
  #night = 0;

  constructor(folder: string, machines: number) {
    this.#folder = folder;
    this.#machines = Array.from({ length: machines }, (_, number) => {
      const columns = makeColumns('dense', this.#dice);
      return { columns, simulated: makeMachine(number, 'dense', columns, `${dayOf(0)}T06:00:00`) };
    });
  }

  /** The roster and the plan. */
  async sheets(): Promise<NightSheets> {
    const machines = ['machine,asset,serial,location,route,driver,currency,decimals,has_cash,has_bills,has_card'];
    const plan = ['machine,column,product,price,par,capacity'];
    for (const [number, { columns }] of this.#machines.entries()) {
      const route = number % ROUTES;
      machines.push(
        `M${number},A${1000 + number},SN${100_000 + number},SITE ${number},R${route},DRIVER ${route},EUR,2,yes,yes,yes`,
      );
      for (const { column, price } of columns) {
        plan.push(`M${number},${column},PRODUCT ${column},${(price / 100).toFixed(2)},12,12`);
      }
    }
    return { machines: await this.#write('machines.csv', machines), plan: await this.#write('plan.csv', plan) };
  }

  /** Let a day pass, and write what comes in. */
  async next(): Promise<Night> {
    const number = ++this.#night;
    const day = dayOf(number);
    const captures = join(this.#folder, 'nights', day);
    await mkdir(captures, { recursive: true });
    const list = ['file,received_at,reason'];
    const counts = ['machine,visited_at,bag,coins,bills'];
    for (const [place, machine] of this.#machines.entries()) {
      const { simulated } = machine;
      this.#sell(machine);
      const isVisited = (place + number) % DAYS_A_WEEK === 0;
      const at = isVisited ? timeOf(8, place * 3) : timeOf(22, place);
      const name = `${day}-M${place}.dex`;
      if (isVisited) {
        const { read, bag } = simulated.serviceVisit({ at: `${day}T${at}` });
        await writeFile(join(captures, name), read.bytes);
        const bill = (bag.bills / 100).toFixed(2);
        counts.push(`M${place},${day} ${at},B${number}-${place},${(bag.coins / 100).toFixed(2)},${bill}`);
      } else {
        simulated.advanceTo(`${day}T${at}`);
        await writeFile(join(captures, name), simulated.read().bytes);
      }
      list.push(`${name},${day} ${at.slice(0, 6)}35,${isVisited ? 'service' : 'scheduled'}`);
    }
    return {
      number,
      day,
      captures,
      list: await this.#write(`list-${day}.csv`, list),
      counts: await this.#write(`counts-${day}.csv`, counts),
    };
  }

  #sell({ columns, simulated }: Machine): void {
    for (let i = 0; i < SALES_A_DAY; i++) {
      const { column, price } = columns[this.#dice.roll(columns.length)]!;
      if (this.#dice.roll(5) < 2) simulated.sellByCard(column);
      else simulated.sellForCash(column, { coins: payExactly(price) });
    }
  }

  async #write(name: string, lines: readonly string[]): Promise<string> {
    const path = join(this.#folder, name);
    await writeFile(path, `${lines.join('\n')}\n`);
    return path;
  }
}

const FIRST_DAY = Date.UTC(2025, 0, 6);
const DAY_MS = 24 * 60 * 60 * 1000;

function dayOf(night: number): LocalDate {
  const date = new Date(FIRST_DAY + (night - 1) * DAY_MS);
  return writeDate(date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate());
}

/** So many minutes after an hour. */
function timeOf(hour: number, minutes: number): string {
  const all = hour * 60 + minutes;
  return `${String(Math.floor(all / 60)).padStart(2, '0')}:${String(all % 60).padStart(2, '0')}:00`;
}

/** No change is due, so that the tubes neither run dry nor fill up. */
function payExactly(price: number): number[] {
  const coins: number[] = [];
  let due = price;
  for (const coin of COINS) {
    for (; due >= coin; due -= coin) coins.push(coin);
  }
  return coins;
}
