import { describe, expect, it } from 'vitest';
import { joinDays, makeDay } from '../../src/day/index.js';
import { type MachinePagesMaker, type PageFile, PagesWriter } from '../../src/pages/index.js';
import { demoInputs } from '../day/demo-day.js';
import { readsOf } from '../day/with-steps.js';
import { closedRound } from './support/closed-round.js';
import { expectSoundPage, linksOf, textOf } from './support/look-at-page.js';

const root = 'ab'.repeat(32);

/** Pages that say no more than whose they are: what the writer does with pages is looked at here, not what is on them. */
const nameMachines: MachinePagesMaker = (batch, site) =>
  batch.inputs.roster.books.machines
    .filter(({ machine }) => batch.inputs.expected?.some((one) => one.machine === machine) ?? true)
    .map(({ machine }) => ({ name: site.machinePages.of(machine), text: machine }));

describe('the writer of pages', () => {
  const inputs = demoInputs('2026-11-23');
  const day = makeDay(inputs);

  function write(options: Partial<ConstructorParameters<typeof PagesWriter>[0]> = {}): PageFile[] {
    const writer = new PagesWriter({ day: '2026-11-23', machinePages: nameMachines, ...options });
    return [
      ...writer.add({ inputs, day }),
      ...writer.end({ ...day, sales: [], cash: [], settlements: [], refill: [] }),
    ];
  }

  it('makes the machines, then the sheets, then the day, each file once, and links that all lead to a file', () => {
    const files = write({ book: { size: 41, root } });
    const names = files.map(({ name }) => name);
    expect(names).toEqual([
      ...[1, 2, 3, 4, 5, 6, 7, 8].map((place) => `machine-v10${place}.html`),
      'settlement-r7-eur.html',
      'index.html',
    ]);
    for (const { text } of files.slice(8)) {
      expectSoundPage(text);
      expect(textOf(text)).toContain(`41 entries, root ${root}`);
      for (const link of linksOf(text)) expect(['', ...names]).toContain(link.split('#')[0]);
    }
    expect(textOf(files[9]!.text)).toContain('·not closed');
  });

  it('makes the sheets of rounds that are given apart, in place of the parts’ own', () => {
    const [settlement] = day.settlements;
    const writer = new PagesWriter({ day: '2026-11-23', machinePages: nameMachines, hasRounds: true });
    expect([...writer.add({ inputs, day })].map(({ name }) => name)).not.toContain('settlement-r7-eur.html');
    const [sheet] = writer.addRound({ settlement: settlement!, inBook: closedRound() });
    expect(textOf(sheet!.text)).toContain('Closed, entry 39');
    expect(textOf(writer.end(day)[0]!.text)).toContain('closed, entry 39');
  });

  it('makes the same day of parts as of the whole', () => {
    const { machines } = inputs.roster.books;
    const halves = [machines.slice(0, 3), machines.slice(3)].map((expected, place) => {
      const own = new Set(expected.map(({ machine }) => machine));
      const { histories } = inputs;
      const ownMachines = new Map([...histories.machines].filter(([key]) => own.has(key.replace('machine ', ''))));
      const files = new Set(
        readsOf({ histories: { machines: ownMachines, nobodys: [], findings: [] } }).map(({ file }) => file),
      );
      const part = {
        ...inputs,
        expected,
        checks: inputs.checks.filter(({ file }) => files.has(file)),
        histories: {
          machines: ownMachines,
          nobodys: [],
          findings: histories.findings.filter(({ file }) => files.has(file!)),
        },
        settlements: place === 1 ? inputs.settlements : { settlements: [], findings: [] },
      };
      return { inputs: part, day: makeDay(part) };
    });
    const writer = new PagesWriter({ day: '2026-11-23', machinePages: nameMachines });
    const pages = halves.flatMap((batch) => [...writer.add(batch)]);
    const joined = joinDays(halves.map((half) => half.day));
    const whole = write();
    expect(pages.map(({ name }) => name).toSorted()).toEqual(
      whole
        .slice(0, -1)
        .map(({ name }) => name)
        .toSorted(),
    );
    expect(writer.end({ ...joined, attention: day.attention })).toEqual(whole.slice(-1));
  });
});
