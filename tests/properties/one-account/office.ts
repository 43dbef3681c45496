import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { loadHistories } from '../../../src/book/closing/book-counts.js';
import { openSqliteBook } from '../../../src/book/store/index.js';
import { type Outcome, runProgram } from '../../cli/run-program.js';
import type { RoundBag, RoundRead } from '../../settlement/play-round.js';
import type { RoundMachine } from '../../support/arbitraries/round.js';

/** A row of the count sheet as the office has it now. */
export interface OfficeBag {
  readonly machine: string;
  readonly at: string;
  readonly bag: string;
  readonly coins: number;
  readonly bills: number;
  readonly driver: string;
}

const COUNT_HEAD = 'machine,visited_at,bag,coins,bills,route,driver,corrects';
const amount = (minor: number): string => `${Math.floor(minor / 100)}.${String(minor % 100).padStart(2, '0')}`;

/** An office with its sheets, captures and book in a folder: it works with the program as a user does. */
export class Office {
  readonly folder: string;
  /** The bags in the book as they were last said, by label. */
  readonly bags = new Map<string, OfficeBag>();
  /** Machines on the roster, and what is said of each. */
  readonly roster: { machine: RoundMachine; location: string }[] = [];
  price = 150;
  profile = 'plain';
  hasList = false;
  #listed: readonly RoundRead[];
  #sheets = 0;

  constructor(folder: string, listed: readonly RoundRead[]) {
    this.folder = folder;
    this.#listed = listed;
  }

  /** The same office with nothing in its book. */
  anew(folder: string): Office {
    const other = new Office(folder, this.#listed);
    for (const [label, bag] of this.bags) other.bags.set(label, bag);
    other.roster.push(...this.roster);
    Object.assign(other, { price: this.price, profile: this.profile, hasList: this.hasList });
    return other;
  }

  write(name: string, content: string | Uint8Array): string {
    mkdirSync(join(this.folder, name, '..'), { recursive: true });
    writeFileSync(join(this.folder, name), content);
    return name;
  }

  /** Run the program with the office's sheets as they are now. */
  async run(...argv: string[]): Promise<Outcome> {
    const row = ({ machine: { machine, history }, location }: Office['roster'][number], i: number): string =>
      `${machine},${history.config.identity.serial},${location},R1,D${i % 2},EUR,2,${this.profile}`;
    this.write(
      'machines.csv',
      ['machine,serial,location,route,driver,currency,decimals,profile', ...this.roster.map(row)].join('\n'),
    );
    const columns = this.roster.flatMap(({ machine: { machine, history } }) =>
      history.config.columns.map(({ column }) => `${machine},${column},Snack,${amount(this.price)}`),
    );
    this.write('plan.csv', ['machine,column,product,price', ...columns].join('\n'));
    const list = this.#listed.map(({ file, at, reason }) => `${file},${at.replace('T', ' ')},${reason}`);
    this.write('captures.csv', ['file,received_at,reason', ...list].join('\n'));
    this.write('profiles/plain.json', JSON.stringify({ name: 'plain' }));
    this.write('profiles/easy.json', JSON.stringify({ name: 'easy', severities: { 'tube-difference': 'note' } }));
    const sheets = ['--machines', 'machines.csv', '--plan', 'plan.csv', '--profiles', 'profiles'];
    const listing = this.hasList ? ['--captures-list', 'captures.csv'] : [];
    const outcome = await runProgram([...argv, ...sheets, ...listing], { cwd: this.folder, tick: 1000 });
    expect([argv, outcome.status <= 2 ? '' : outcome.err]).toEqual([argv, '']);
    return outcome;
  }

  /** A count sheet of these bags; a new file each time. */
  sheet(bags: readonly OfficeBag[], corrects: readonly number[] = []): string {
    const rows = bags.map(({ machine, at, bag, coins, bills, driver }, i) =>
      [
        machine,
        at.slice(0, 16).replace('T', ' '),
        bag,
        amount(coins),
        amount(bills),
        'R1',
        driver,
        corrects[i] ?? '',
      ].join(),
    );
    this.#sheets++;
    return this.write(`counts-${this.#sheets}.csv`, [COUNT_HEAD, ...rows].join('\n'));
  }

  async record(day: string, ...bags: readonly OfficeBag[]): Promise<void> {
    await this.run('settle', '--book', 'coilbook.db', '--day', day, '--counts', this.sheet(bags), '--record');
    for (const bag of bags) this.bags.set(bag.bag, bag);
  }

  /** Put what is said of some bags in the place of what was said, all in one act. */
  async correct(...bags: readonly OfficeBag[]): Promise<void> {
    const entries = await Promise.all(bags.map(({ bag }) => this.entryOf(bag)));
    const book = ['--book', 'coilbook.db', '--day', bags[0]!.at.slice(0, 10)];
    const outcome = await this.run(
      'settle',
      ...book,
      '--counts',
      this.sheet(bags, entries),
      '--record',
      '--by',
      'Kim',
      '--reason',
      'counted again',
    );
    expect(outcome.out).not.toContain('Nothing was corrected');
    for (const bag of bags) this.bags.set(bag.bag, bag);
  }

  async withdraw(bag: string): Promise<void> {
    const entry = String(await this.entryOf(bag));
    await this.run('settle', '--book', 'coilbook.db', '--withdraw', entry, '--reason', 'no bag', '--by', 'Kim');
    this.bags.delete(bag);
  }

  close(day: string): Promise<Outcome> {
    return this.run('settle', '--book', 'coilbook.db', '--day', day, '--close-anyway', 'the month ends', '--by', 'Kim');
  }

  /** The last entry about a bag. */
  async entryOf(label: string): Promise<number> {
    const book = await openSqliteBook(join(this.folder, 'coilbook.db'), { isReadOnly: true });
    try {
      const found = (await loadHistories(book)).find(({ body }) => body?.bag === label);
      if (found === undefined) throw new RangeError(`the book has no bag ${label}`);
      return found.entry;
    } finally {
      await book.close();
    }
  }
}

/** A bag as it was truly taken, as the office writes it down: one into which more was filled by hand than came out holds nothing. */
export const officeBag = ({ machine, at, bag, coins, bills }: RoundBag): OfficeBag => ({
  machine,
  at,
  bag,
  coins: Math.max(0, coins),
  bills,
  driver: 'D0',
});
