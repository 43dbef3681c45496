import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ATTENTION_CAUSES,
  CAUSE_OF_CODE,
  listAttention,
  outlineInterval,
  type PastStretch,
} from '../../src/attention/index.js';
import { CAUSE_RULES } from '../../src/attention/rules/index.js';
import { takeReads } from '../../src/captures/index.js';
import { checkCapture } from '../../src/checks/index.js';
import type { DayInputs } from '../../src/day/index.js';
import { joinDays, makeDay } from '../../src/day/index.js';
import { CAUTIONS, FINDING_CODES, type Finding } from '../../src/findings/index.js';
import { gatherHistories, type TakenRead } from '../../src/interval/index.js';
import { readCaptures } from '../../src/read/index.js';
import { settleRound } from '../../src/settlement/index.js';
import { decimalsFromRoster, Roster, readCapturesList, readCounts, readMachines } from '../../src/sheets/index.js';
import { DayScenario, startMachine } from '../day/day-scenario.js';
import { stepsOf } from '../day/with-steps.js';
import { arbitraryRound, type RoundMachine } from '../support/arbitraries/round.js';
import { EUR } from '../support/simulator/index.js';

describe('causes', () => {
  it('have a rule each, and are reached by some code or state', () => {
    expect(Object.keys(CAUSE_RULES).toSorted()).toEqual(ATTENTION_CAUSES.toSorted());
    for (const cause of ATTENTION_CAUSES) expect(CAUSE_RULES[cause].cause).toBe(cause);
    const byState = ['read-again', 'bag-differs', 'bag-uncounted'];
    expect(new Set([...Object.values(CAUSE_OF_CODE), ...byState])).toEqual(new Set(ATTENTION_CAUSES));
  });

  it('are there for every code of a finding', () => {
    expect(Object.keys(CAUSE_OF_CODE).toSorted()).toEqual(Object.keys(FINDING_CODES).toSorted());
  });

  it('carry the cautions of a cabinet wherever someone is sent to the machine, and that of a count wherever bags differ', () => {
    const { harness, inside, tilt } = CAUTIONS;
    expect([harness, inside, tilt].every((caution) => caution.length > 20)).toBe(true);
    for (const { todo, cautions } of Object.values(CAUSE_RULES)) {
      const isAtMachine = /\b(set the|filled|looked at|read again|price and|power)\b/i.test(todo);
      if (isAtMachine && !/sheet|roster|Ask who/.test(todo))
        expect(cautions).toEqual(expect.arrayContaining(['harness', 'inside', 'tilt']));
    }
    expect(CAUSE_RULES['fault-active'].cautions).toContain('food');
    expect(CAUSE_RULES['bag-differs'].cautions).toContain('overShort');
  });
});

describe('listAttention', () => {
  it('lists what names no machine as well, by read or file where it can', () => {
    const office = new DayScenario();
    const machine = startMachine();
    const first = machine.read({ at: '2026-11-23T08:00:00' }).bytes;
    const second = machine.read({ at: '2026-11-23T20:00:00' }).bytes;
    office.addFile('both.dex', new Uint8Array([...first, ...second]), { day: '2026-11-23' });
    const findings: Finding[] = [
      { code: 'clock-jump', severity: 'doubt', message: 'Of a read.', file: 'both.dex', read: 1 },
      { code: 'currency-changed', severity: 'doubt', message: 'Of a file.', file: 'both.dex' },
      { code: 'bad-cell', severity: 'doubt', message: 'Of a sheet.', file: 'plan.csv', row: 3 },
      { code: 'mixed-currency', severity: 'doubt', message: 'Of nothing.' },
      { code: 'duplicate-row', severity: 'note', message: 'Only a note.' },
    ];
    const { attention } = office.make('2026-11-23', { findings });
    expect(attention.map(({ machine: name, cause, what }) => [name, cause, what])).toEqual([
      [null, 'money-unit', 'Of nothing.'],
      ['M1', 'money-unit', 'Of a file.'],
      ['M1', 'clock-wrong', 'Of a read.'],
      [null, 'office-sheet', 'Of a sheet.'],
    ]);
  });

  it('lists reads that do not say whose they are, alone in a file or beside others', () => {
    const office = new DayScenario();
    const nameless = new TextEncoder().encode('DXS*T*VA*V1/1*1\r\nST*001*0001\r\nID4*2*978*EUR\r\nID1*000**\r\n');
    office.addFile('nameless.dex', nameless, { day: '2026-11-23' });
    const good = startMachine().read({ at: '2026-11-23T08:00:00' }).bytes;
    office.addFile('mixed.dex', new Uint8Array([...good, ...nameless]), { day: '2026-11-23' });
    const finding: Finding = { code: 'padding', severity: 'doubt', message: 'Of a mixed file.', file: 'mixed.dex' };
    const { attention } = office.make('2026-11-23', { findings: [finding] });
    expect(attention.every(({ machine }) => machine === null)).toBe(true);
    const item = attention.find(({ cause }) => cause === 'read-again');
    expect(item!.what).toMatch(/^2 captures cannot be used: nameless\.dex, mixed\.dex\./);
    expect(attention.find(({ cause }) => cause === 'capture-doubtful')!.findings).toContainEqual(finding);
  });

  it('keeps what was found on a file as a whole with the machines that are in it', () => {
    const office = new DayScenario();
    const machine = startMachine();
    const reads = ['2026-11-23T08:00:00', '2026-11-23T20:00:00'].map((at) => machine.read({ at }).bytes);
    office.addFile('both.dex', new Uint8Array(reads.flatMap((bytes) => [...bytes])), { day: '2026-11-23' });
    const inputs = office.inputs('2026-11-23');
    const finding: Finding = { code: 'junk-between', severity: 'doubt', message: 'Junk.', file: 'both.dex' };
    const checks = [{ ...inputs.checks[0]!, findings: [finding] }];
    expect(office.make('2026-11-23', { checks }).attention).toMatchObject([
      { machine: 'M1', cause: 'capture-doubtful' },
    ]);
  });

  it('finds the machine that a sheet calls by its asset or serial number', () => {
    const office = new DayScenario({ machines: 'machine\n' });
    office.take(startMachine(), { at: '2026-11-23T20:00:00' });
    const finding: Finding = { code: 'bad-row', severity: 'doubt', message: 'Row.', machine: 'A100' };
    expect(office.make('2026-11-23', { findings: [finding] }).attention).toMatchObject([{ machine: 'asset A100' }]);
  });
});

/** A random round on its last day, as an office has it: some files come twice, some are harmed, some bags are not counted. */
function inputsOf(
  machines: readonly RoundMachine[],
  harm: readonly number[],
): DayInputs & { readonly reads: readonly TakenRead[] } {
  const day = machines
    .flatMap(({ history }) => history.reads.map(({ snapshot }) => snapshot.at.slice(0, 10)))
    .toSorted()
    .at(-1)!;
  const files = machines.flatMap(({ machine, history }) =>
    history.reads.map(({ bytes, bag, snapshot }, number) => ({
      file: `${machine}-${number}.dex`,
      bytes,
      bag,
      at: snapshot.at,
      machine,
    })),
  );
  const sheet = (head: string, rows: readonly (readonly (string | number)[])[]) => ({
    file: `${head.split(',')[0]}.csv`,
    content: [head, ...rows.map((row) => row.join(',')), ''].join('\n'),
  });
  const rows = machines.map(({ machine, asset }) => [machine, asset, `Place ${machine}`, 'R1', 'EUR', 'yes']);
  const list = files.map(({ file, at, bag }) => [file, at.replace('T', ' '), bag === null ? 'scheduled' : 'service']);
  const roster = new Roster({
    machines: readMachines(sheet('machine,asset,location,route,currency,has_cash', rows)).rows,
    capturesList: readCapturesList(sheet('file,received_at,reason', list)).rows,
  });
  const sent = files.map((each, number) => ({ ...each, bytes: harmBytes(each.bytes, harm[number % harm.length]!) }));
  const reads: TakenRead[] = sent.flatMap(({ file, bytes }) => takeReads(file, readCaptures(bytes).reads, { roster }));
  const checks = sent
    .filter(({ at }) => at.startsWith(day))
    .map(({ file, bytes }) => checkCapture(file, bytes, { roster }));
  const bags = files
    .filter(({ bag }, number) => bag !== null && harm[number % harm.length] !== 3)
    .map(({ machine, at, bag }, number) => [
      machine,
      at.replace('T', ' '),
      ((bag!.coins - (number % 3) * 10) / 100).toFixed(2),
      (bag!.bills / 100).toFixed(2),
    ]);
  const money = decimalsFromRoster(roster.books.machines, null);
  const counts = readCounts(sheet('machine,visited_at,coins,bills', bags), money).rows;
  const settlements = settleRound({ reads, counts, roster }, { day });
  return { day, roster, checks, reads, histories: gatherHistories(reads, roster), settlements };
}

function harmBytes(bytes: Uint8Array, harm: number): Uint8Array {
  if (harm === 1) return bytes.slice(0, Math.floor(bytes.length * 0.6));
  if (harm !== 2) return bytes;
  const changed = bytes.slice();
  changed[Math.floor(bytes.length / 2)]! ^= 1;
  return changed;
}

const anyRound = fc.tuple(
  arbitraryRound({
    ...{ priceChanges: true, discounts: true, unseenResets: true, tubeFaults: true, clockChanges: true },
    restarts: ['board-changed', 'memory-cleared', 'other-machine'],
    machine: { money: [EUR] },
    maxMachines: 3,
    maxReads: 4,
  }),
  fc.array(fc.constantFrom(0, 0, 0, 0, 1, 2, 3), { minLength: 1, maxLength: 7 }),
);

const ofDay = (inputs: DayInputs): Finding[] => {
  const { checks, histories, settlements } = inputs;
  const files = new Set(checks.map(({ file }) => file));
  return [
    ...checks.flatMap(({ findings }) => findings),
    ...histories.findings.filter(({ file }) => files.has(file!)),
    ...stepsOf(inputs)
      .filter(({ to }) => files.has(to.file))
      .flatMap(({ findings }) => findings),
    ...settlements.settlements.flatMap(({ visits, findings }) => [
      ...findings,
      ...visits.flatMap((visit) => visit.findings),
    ]),
  ];
};

describe('the list of a random round (simulated machines, some files harmed, some bags not counted)', () => {
  it('has every finding of the day that is more than a note, and one line a machine and cause', () => {
    fc.assert(
      fc.property(anyRound, ([machines, harm]) => {
        const inputs = inputsOf(machines, harm);
        const { attention } = makeDay(inputs);
        const listed = new Set(attention.flatMap(({ findings }) => findings.map(outline)));
        const missing = ofDay(inputs).filter((finding) => finding.severity !== 'note' && !listed.has(outline(finding)));
        expect(missing).toEqual([]);
        const lines = attention.map(({ machine, cause }) => `${machine} ${cause}`);
        expect(new Set(lines).size).toBe(lines.length);
        for (const { stake, findings, severity, what, todo } of attention) {
          expect(findings.some((finding) => finding.severity === severity)).toBe(true);
          expect(stake.amount === null).toBe(stake.bound === null);
          expect(
            [stake.amount ?? 0, stake.perDay ?? 0].every((amount) => Number.isSafeInteger(amount) && amount >= 0),
          ).toBe(true);
          expect([what, todo, stake.how].every((text) => text.length > 5)).toBe(true);
        }
      }),
      { numRuns: 40, seed: 21 },
    );
  });

  it('is the same when the machines are worked off one by one and put together', () => {
    fc.assert(
      fc.property(anyRound, ([machines, harm]) => {
        const inputs = inputsOf(machines, harm);
        const whole = makeDay({ ...inputs, settlements: NO_SETTLEMENTS });
        const parts = inputs.roster.books.machines.map((row) => {
          const isOwn = (file: string): boolean => file.startsWith(`${row.machine}-`);
          const checks = inputs.checks.filter(({ file }) => isOwn(file));
          const histories = gatherHistories(
            inputs.reads.filter(({ file }) => isOwn(file)),
            inputs.roster,
          );
          return makeDay({ ...inputs, settlements: NO_SETTLEMENTS, expected: [row], checks, histories });
        });
        const joined = joinDays(parts);
        expect(joined.attention.map(withoutFindings)).toEqual(whole.attention.map(withoutFindings));
        expect(joined).toMatchObject({ files: whole.files, machines: whole.machines, totals: whole.totals });
        expect(joined.sales.toSorted(byText)).toEqual(whole.sales.toSorted(byText));
        expect(joined.refill.toSorted(byText)).toEqual(whole.refill.toSorted(byText));
      }),
      { numRuns: 20, seed: 22 },
    );
  });

  it('is the same whatever order the files and intervals come in', () => {
    fc.assert(
      fc.property(anyRound, ([machines, harm]) => {
        const inputs = inputsOf(machines, harm);
        const attentionOf = (turn: <T>(list: readonly T[]) => readonly T[]) =>
          listAttention({
            day: inputs.day,
            roster: inputs.roster,
            checks: turn(inputs.checks),
            intervals: stepsOf(inputs),
            visits: turn(inputs.settlements.settlements.flatMap(({ visits }) => visits)),
            latest: new Map(),
            stock: new Map(),
            past: new Map<string, PastStretch[]>([
              [
                'machine M1',
                stepsOf(inputs)
                  .slice(0, 1)
                  .map(outlineInterval)
                  .filter((one) => one !== null),
              ],
            ]),
            findings: turn(inputs.histories.findings),
          });
        const order = (items: ReturnType<typeof attentionOf>) =>
          items.map(({ machine, cause, stake }) => [machine, cause, stake.amount]);
        expect(order(attentionOf((list) => list.toReversed()))).toEqual(order(attentionOf((list) => list)));
      }),
      { numRuns: 20, seed: 23 },
    );
  });
});

const NO_SETTLEMENTS = { settlements: [], findings: [] };
const outline = ({ code, message, file, read, column }: Finding): string =>
  JSON.stringify([code, message, file, read, column]);
const withoutFindings = ({ findings: _, ...item }: { findings: unknown; what: string }) => item;
const byText = (a: unknown, b: unknown): number => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1);
