import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { crc16 } from 'crc';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { textOf } from '../support/build-capture.js';
import { buildDemo } from '../support/demo/build-demo.js';

const FOLDER = fileURLToPath(new URL('../../fixtures/demo', import.meta.url));
// The switch only writes: every test below runs on what is on disk.
if (process.env.COILBOOK_WRITE_FIXTURES === '1') writeFixtures();

function writeFixtures(): void {
  rmSync(join(FOLDER, 'captures'), { recursive: true, force: true });
  for (const [path, bytes] of buildDemo()) {
    mkdirSync(dirname(join(FOLDER, path)), { recursive: true });
    writeFileSync(join(FOLDER, path), bytes);
  }
}

const load = (path: string): string => readFileSync(join(FOLDER, path), 'latin1');
const loadCapture = (file: string): string => load(join('captures', file));
const loadSheet = (path: string): Record<string, string>[] => parse(load(path), { columns: true });

interface DemoVisit {
  readonly machine: string;
  readonly state: string;
  readonly bag: string;
  readonly openingCapture: string;
  readonly visitCapture: string | null;
  readonly overShort: { readonly coins: number; readonly bills: number };
  readonly inTheBag: { readonly coins: number; readonly bills: number };
  readonly columns: readonly Record<string, unknown>[];
}
interface DemoTruth {
  readonly visits: readonly DemoVisit[];
  readonly totals: { readonly overShort: { readonly coins: number; readonly bills: number } };
  readonly cardDays: readonly { readonly machine: string; readonly amount: number; readonly paid: number | null }[];
  readonly captures: readonly { readonly file: string; readonly machine: string; readonly fault: string | null }[];
}
const truth = JSON.parse(load('truth.json')) as DemoTruth;
const visitOf = (machine: string): DemoVisit => truth.visits.find((visit) => visit.machine === machine)!;
const faulty = (fault: string): string => truth.captures.find((capture) => capture.fault === fault)!.file;

/** Whether G85 is the CRC of the text from ST on, by the npm package, in either byte order. */
function hasRightCrc(text: string): boolean {
  const stated = /G85\*([0-9A-F]{4})/.exec(text)?.[1];
  const covered = text.slice(text.indexOf('ST*'), text.indexOf('G85*'));
  const computed = crc16(Buffer.from(covered, 'latin1')).toString(16).toUpperCase().padStart(4, '0');
  return stated === computed || stated === computed.slice(2) + computed.slice(0, 2);
}

describe('demo files', () => {
  it('are what the generator makes, byte for byte', () => {
    const made = buildDemo();
    for (const [path, bytes] of made) expect([path, load(path)]).toEqual([path, textOf(bytes)]);
    const captures = [...made.keys()].filter((path) => path.startsWith('captures/'));
    const found = readdirSync(join(FOLDER, 'captures')).map((name) => `captures/${name}`);
    expect(found.sort()).toEqual(captures.sort());
    expect([...made.values()].reduce((sum, bytes) => sum + bytes.length, 0)).toBeLessThan(600_000);
  });

  it('are listed as they arrived', () => {
    const listed = loadSheet('captures.csv').map(({ file }) => file);
    expect(listed.slice().sort()).toEqual(readdirSync(join(FOLDER, 'captures')).sort());
    expect(truth.captures.map(({ file }) => file)).toEqual(listed);
  });

  it('have sheets with the columns that the office uses', () => {
    const headerOf = (path: string): string[] => Object.keys(loadSheet(path)[0]!);
    expect(headerOf('machines.csv')).toEqual(
      'machine asset serial location route driver currency decimals has_cash has_bills has_card profile active commission_percent commission_base tax_percent tax_included'.split(
        ' ',
      ),
    );
    expect(headerOf('plan.csv')).toEqual('machine column product price par capacity card_price from'.split(' '));
    expect(headerOf('counts.csv')).toEqual(
      'machine visited_at bag coins bills route driver counted_at note'.split(' '),
    );
    expect(headerOf('deposits.csv')).toEqual('machine device date currency gross fees net reference'.split(' '));
    expect(new Set(loadSheet('plan.csv').map(({ machine }) => machine)).size).toBe(8);
  });
});

describe('demo scenario', () => {
  it('has one damaged and one cut capture, and all others whole', () => {
    for (const { file, fault } of truth.captures) {
      const text = loadCapture(file);
      const isWhole = hasRightCrc(text.replace(/\r?\n/g, '\r\n')) && /DXE\*1\*1\r?\n$/.test(text);
      expect([file, isWhole]).toEqual([file, fault !== 'byte-changed' && fault !== 'cut-short']);
    }
    expect(loadCapture(faulty('byte-changed'))).toMatch(/\r\nDXE\*1\*1\r\n$/);
    expect(loadCapture(faulty('cut-short'))).not.toContain('G85');
  });

  it('has one capture twice, and one again with other line endings', () => {
    const [again, mailed] = [faulty('same-bytes-again'), faulty('line-endings-changed')];
    expect(loadCapture(again)).toBe(loadCapture(again.replace('-again', '')));
    expect(loadCapture(mailed)).not.toContain('\r');
    expect(loadCapture(mailed).replaceAll('\n', '\r\n')).toBe(loadCapture(mailed.replace('-mailed', '')));
  });

  it('has one machine whose board was swapped, which keeps its name', () => {
    const { openingCapture, visitCapture, state } = visitOf('V105');
    const [before, after] = [loadCapture(openingCapture), loadCapture(visitCapture!)];
    const pick = (text: string, pattern: RegExp): string => pattern.exec(text)![1]!;
    expect(pick(after, /\r\n(ID1\*.*)\r/)).toBe(pick(before, /\r\n(ID1\*.*)\r/));
    expect(pick(after, /CB1\*(\w+)/)).not.toBe(pick(before, /CB1\*(\w+)/));
    expect(Number(pick(after, /VA1\*(\d+)/))).toBeLessThan(Number(pick(before, /VA1\*(\d+)/)));
    expect(state).toBe('unsettled');
  });

  it('has one bag that is short by 5.00, and no other difference', () => {
    for (const { machine, overShort } of truth.visits) {
      expect([machine, overShort]).toEqual([machine, { coins: machine === 'V106' ? -500 : 0, bills: 0 }]);
    }
    expect(truth.totals.overShort).toEqual({ coins: -500, bills: 0 });
    const counts = new Map(loadSheet('counts.csv').map((row) => [row.machine, row]));
    for (const { machine, bag, inTheBag, overShort } of truth.visits) {
      const row = counts.get(machine)!;
      expect(row.bag).toBe(bag);
      expect(row.coins).toBe(((inTheBag.coins + overShort.coins) / 100).toFixed(2));
      expect(row.bills).toBe((inTheBag.bills / 100).toFixed(2));
    }
  });

  it('has one bag with no capture', () => {
    expect(truth.visits.filter(({ visitCapture }) => visitCapture === null).map(({ machine }) => machine)).toEqual([
      'V108',
    ]);
    expect(visitOf('V108').state).toBe('unread');
  });

  it('has card sales of four days, one not paid, one paid 1.50 short, and a deposit of another device', () => {
    const { cardDays } = truth;
    expect(cardDays.map(({ machine, paid, amount }) => [machine, paid === null ? null : paid - amount])).toEqual([
      ['V102', 0],
      ['V102', null],
      ['V102', 0],
      ['V102', -150],
    ]);
    const deposits = loadSheet('deposits.csv');
    const device = /\r\nDA1\*(\w+)/.exec(loadCapture(visitOf('V102').openingCapture))![1];
    const cents = (text: string | undefined): number => Math.round(Number(text) * 100);
    const paid = cardDays.flatMap((each) => (each.paid === null ? [] : [each.paid]));
    expect(deposits.filter((row) => row.device === device).map(({ gross }) => cents(gross))).toEqual(paid);
    expect(deposits.filter((row) => row.device !== device)).toMatchObject([{ device: 'CRSIM700911', gross: '3.20' }]);
    for (const { gross, fees, net } of deposits) expect(cents(gross) - cents(fees)).toBe(cents(net));
  });

  it('has one price off plan all along, and one changed on the way', () => {
    const all = truth.visits.flatMap(({ machine, columns }) =>
      columns.map((column) => ({ ...column, machine }) as Record<string, unknown>),
    );
    const offPlan = all.filter(({ priceTo, pricePlan }) => priceTo !== pricePlan);
    expect(offPlan).toMatchObject([{ machine: 'V107', column: '23', priceFrom: 140, priceTo: 140, pricePlan: 150 }]);
    expect(offPlan[0]!.lossFromPrice).toBe(10 * (offPlan[0]!.sold as number));
    expect(offPlan[0]!.sold).toBeGreaterThan(0);
    const changed = all.filter(({ priceFrom, priceTo }) => priceFrom !== priceTo);
    expect(changed).toMatchObject([{ machine: 'V104', column: '14', priceFrom: 120, priceTo: 130 }]);
    expect(changed[0]!.split).toHaveLength(2);
  });
});
