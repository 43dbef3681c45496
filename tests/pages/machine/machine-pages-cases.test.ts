import { describe, expect, it } from 'vitest';
import { type Day, type DayInputs, makeDay } from '../../../src/day/index.js';
import { makeFinding } from '../../../src/findings/index.js';
import { columnAnchor, makeSite, type PageFile } from '../../../src/pages/index.js';
import { makeMachinePages } from '../../../src/pages/machine/index.js';
import { DayScenario, type OfficeSheets, ONE_MACHINE, sell, startMachine } from '../../day/day-scenario.js';
import { defineColumn } from '../../support/simulator/index.js';
import { attentionItem } from '../support/day-given.js';
import { HUGE_TEXT } from '../support/hostile.js';
import { expectSoundPage, tagsOf, textOf } from '../support/look-at-page.js';
import { HOSTILE_NAMES, wideCapture } from '../support/wide-machine.js';

const DAY = '2026-11-21';

function pagesOf(inputs: DayInputs, changes: Partial<Day> = {}): PageFile[] {
  const day = { ...makeDay(inputs), ...changes };
  const files = [...makeMachinePages({ inputs, day }, makeSite({ day: inputs.day }))];
  for (const { text } of files) expectSoundPage(text);
  return files.filter(({ name }) => !name.includes('.trend'));
}

const wordsOf = (inputs: DayInputs, changes: Partial<Day> = {}): string => textOf(pagesOf(inputs, changes)[0]!.text);
const idsOf = ({ text }: PageFile): string[] =>
  tagsOf(text).flatMap(({ attributes }) => (attributes.has('id') ? [attributes.get('id')!] : []));

/** An office to which two captures of a wide machine came, on the 20th and the 21st. */
function wideOffice(columns: readonly string[], sheets?: OfficeSheets, segments: readonly string[] = []): DayScenario {
  const office = new DayScenario(sheets);
  office.addFile('a.dex', wideCapture(20, columns, 10, segments), { day: '2026-11-20' });
  office.addFile('b.dex', wideCapture(21, columns, 13, segments), { day: DAY });
  return office;
}

describe('a machine’s page', () => {
  it('marks columns that are priced off plan or sold out, in words', () => {
    const plan = 'machine,column,product,price,par\nM1,11,Oat bar,2.10,5\nM1,12,Nougat,1.00,3\n';
    const office = new DayScenario({ machines: ONE_MACHINE, plan });
    const machine = startMachine({ columns: [defineColumn('11', 200), defineColumn('12', 100)] });
    office.take(machine, { at: '2026-11-20T20:00:00', service: true }, { reason: 'service' });
    sell(machine, '11', 2, '2026-11-21T08:00:00');
    sell(machine, '12', 3, '2026-11-21T12:00:00');
    office.take(machine, { at: `${DAY}T20:00:00` });
    const words = wordsOf(office.inputs(DAY));
    expect(words).toMatch(/Tray 1 11 Oat bar 2 sold, 4\.00 ≠priced off plan 12 Nougat 3 sold, 3\.00 0sold out by the/);
    expect(words).toMatch(/11 Oat bar 2 4\.00 2\.00 2\.10 ≠priced off plan the price cost 0\.20; 3 left of 5/);
    expect(words).toContain('Cost of prices off plan 0.20 EUR');
  });

  it('says what is not known, and nothing of it as 0', () => {
    const office = new DayScenario({ machines: ONE_MACHINE });
    office.addFile('a.dex', wideCapture(20, ['11', '12'], 10), { day: '2026-11-20' });
    office.addFile('b.dex', wideCapture(21, ['11'], 13, ['PA1*12*150']), { day: DAY });
    const words = wordsOf(office.inputs(DAY));
    expect(words).toMatch(/12 –not known sold/);
    expect(words).toMatch(/12 not known not known 1\.50 –not known \?not all known/);
    expect(words).toContain('Sold not known');
    expect(words).toMatch(/Cash figures, in EUR Cash figure Amount Cash in no counter .* Bills not known/);
    expect(words).toContain('Coming in: Cash in no counter. Going out: Cash box no counter');
  });

  it('says of a machine that was not read, or read once, that nothing can be said', () => {
    const office = new DayScenario({ machines: `${ONE_MACHINE}M2,A200,,R7,EUR\n` });
    office.addFile('b.dex', wideCapture(21, ['11'], 13), { day: DAY });
    const [once, never] = pagesOf(office.inputs(DAY));
    expect(textOf(once!.text)).toMatch(
      /no read of the day has a usable read before it\. The last usable read is of 2026/,
    );
    expect(textOf(never!.text)).toContain('No read of this machine is known.');
    expect(textOf(never!.text)).toContain('This machine was not read.');
    expect(textOf(never!.text)).toContain('No usable read says whether faults are active.');
  });

  it('has machines that no roster has, and leaves out those that are out of use', () => {
    const office = new DayScenario({ machines: 'machine,asset,active\nM1,A1,no\n' });
    office.addFile('b.dex', wideCapture(21, ['11'], 13), { day: DAY });
    const pages = pagesOf(office.inputs(DAY));
    expect(pages.map(({ name }) => name)).toEqual(['machine-asset-a100.html']);
    expect(textOf(pages[0]!.text)).toContain('Roster on no roster');
  });

  it('shows each interval of the day, newest first, with ids of their own', () => {
    const office = new DayScenario();
    const machine = startMachine();
    office.take(machine, { at: '2026-11-20T20:00:00' });
    sell(machine, '11', 1, `${DAY}T08:00:00`);
    office.take(machine, {});
    sell(machine, '11', 2, `${DAY}T20:00:00`);
    office.take(machine, {});
    const [page] = pagesOf(office.inputs(DAY));
    expect(textOf(page!.text)).toMatch(/Sold from 2026-11-21 08:00.* Sold 2 .*Sold from 2026-11-20 20:00.* Sold 1 /);
    expect(idsOf(page!)).toEqual(
      expect.arrayContaining(['columns-11', 'interval-2-columns-11', 'interval-2-cash-bills']),
    );
  });

  it('shows the newest of very many intervals, and says how many it leaves out', () => {
    const office = new DayScenario();
    const machine = startMachine();
    office.take(machine, { at: '2026-11-20T20:00:00' });
    for (let hour = 0; hour < 28; hour++) {
      sell(machine, '11', 1, `${DAY}T${String(Math.floor(hour / 2)).padStart(2, '0')}:${hour % 2 === 0 ? 10 : 40}:00`);
      office.take(machine, {});
    }
    const words = pagesOf(office.inputs(DAY))
      .map(({ text }) => textOf(text))
      .join(' ');
    expect(words.match(/Sold from 2026/g)).toHaveLength(24);
    expect(words).toContain('4 earlier intervals of the day not shown here.');
  });

  it('shows no more columns than any machine has, and says how many a capture claims besides', () => {
    const columns = Array.from({ length: 1100 }, (_, place) => `C${place}`);
    const parts = pagesOf(wideOffice(columns).inputs(DAY));
    const words = parts.map(({ text }) => textOf(text)).join(' ');
    expect(words).toContain('100 more columns not shown here; the sums have them.');
    expect(words).toContain('Sold 3300');
  });

  it('marks figures that are the least it can have been', () => {
    const office = new DayScenario();
    const machine = startMachine();
    office.take(machine, { at: '2026-11-20T20:00:00' });
    machine.clearMemory();
    sell(machine, '11', 2, `${DAY}T20:00:00`);
    office.take(machine, {});
    const words = wordsOf(office.inputs(DAY));
    expect(words).toContain('since the counters started again');
    expect(words).toContain('Sold at least 2 For at least 4.00 EUR');
    expect(words).toContain('at least 2 sold');
    expect(words).toContain('Cash in in 4.00 At least this much.');
  });

  it('lists active faults of the last read, with what to do and the cautions that go with it', () => {
    const [page] = pagesOf(wideOffice(['11'], undefined, ['EA2*EGS*1*2*1']).inputs(DAY));
    const words = textOf(page!.text);
    expect(words).toMatch(/Faults active 1 fault reported .* The machine reports event EGS as active/);
    expect(words).toContain('Never rock or tilt a machine');
  });

  it('gives an id to one of two columns whose names differ too late for that, and shows both', () => {
    const long = 'x'.repeat(70);
    const [page] = pagesOf(wideOffice([`${long}1`, `${long}2`]).inputs(DAY));
    expect(idsOf(page!).filter((id) => id === columnAnchor(long))).toHaveLength(1);
    expect(textOf(page!.text).match(/x{20}… 3 4\.50/g)).toHaveLength(2);
  });

  it('shows hostile and huge texts as text, cut', () => {
    const name = '<script>alert(1)</script>';
    const machines = `machine,asset,location,currency\n${name},A100,"${HUGE_TEXT.replaceAll('"', '""')}",EUR\n`;
    const office = wideOffice([...HOSTILE_NAMES, HUGE_TEXT], { machines }, [`EA2*${HOSTILE_NAMES[1]}*1*1*1`]);
    const [page] = pagesOf(office.inputs(DAY));
    expect(page!.name).toBe('machine-script-alert-1-script.html');
    expect(page!.text).not.toContain(name);
    expect(page!.text).toContain('&lt;script>');
    expect(page!.text).not.toMatch(/\u001b|\u202e|x{2000}/);
  });

  it('goes on to further parts where it is too long, with every column once and each link on its own page', () => {
    const columns = Array.from({ length: 900 }, (_, place) => `C${place}`);
    const parts = pagesOf(wideOffice(columns).inputs(DAY));
    expect(parts.length).toBeGreaterThan(1);
    expect(parts[1]!.name).toBe('machine-m1.2.html');
    const ids = parts.flatMap(idsOf).filter((id) => id.startsWith('columns-'));
    expect(ids).toEqual(columns.map((column) => columnAnchor(column)));
    const words = parts.map(({ text }) => textOf(text)).join(' ');
    expect(words).toContain('Sales by column, 1 to 60 of 900');
    expect(words).toContain(`Machine M1: part 1 of ${parts.length}`);
    expect(words.match(/Cash of the same time/g)).toHaveLength(1);
  });

  it('keeps within bounds however much there is to look at and was found, and says how much is left out', () => {
    const inputs = wideOffice(['11']).inputs(DAY);
    const what = '<&>'.repeat(400);
    const attention = Array.from({ length: 90 }, () => attentionItem({ machine: 'M1', what, todo: what }));
    const codes = [
      'clock-wrong',
      'price-off-plan',
      'cut-short',
      'event-active',
      'cash-split',
      'over',
      'short',
    ] as const;
    const findings = codes.flatMap((code) =>
      Array.from({ length: 6 }, () => makeFinding(code, '\u202e'.repeat(1200), { file: 'b.dex', advice: what })),
    );
    const checks = inputs.checks.map((check) => ({ ...check, findings }));
    const words = wordsOf({ ...inputs, checks }, { attention });
    expect(words).toMatch(/And \d+ more things, on the day’s page\./);
    expect(words).toMatch(/And \d+ more findings, none of them worse\./);
  });
});
