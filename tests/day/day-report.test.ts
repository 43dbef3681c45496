import { Ajv2020 } from 'ajv/dist/2020.js';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { ATTENTION_CAUSES, type AttentionItem, type Stake } from '../../src/attention/index.js';
import type { Day } from '../../src/day/index.js';
import { CAUTIONS } from '../../src/findings/index.js';
import {
  attentionRows,
  attentionToJson,
  DAY_ATTENTION_TABLE,
  DAY_CASH_TABLE,
  DAY_REFILL_TABLE,
  DAY_SALES_TABLE,
  type DayFile,
  DayWriter,
  dayToJson,
  describeStake,
  layAttention,
  layDay,
  makeSchema,
  PLAIN_STYLE,
  writeDay,
} from '../../src/report/index.js';
import { dayShape } from '../../src/report/shapes/day.js';
import { DayScenario, sell, startMachine } from './day-scenario.js';
import { demoDay } from './demo-day.js';

const day = demoDay('2026-11-23');
const before = demoDay('2026-11-22');
const files = new Map(writeDay(day).map(({ name, text }) => [name, text]));
/** RFC 4180, by an independent reader. */
const rowsOf = (name: string): Record<string, string>[] => parse(files.get(name)!, { columns: true });

/** An office's day with hostile names, a machine on no roster, currencies and a file that is no capture. */
function hostileDay() {
  const office = new DayScenario({ machines: 'machine,asset,location,currency\n=M1,A100,"\u001b[2J, Hall",EUR\n' });
  const machine = startMachine();
  office.take(machine, { at: '2026-11-20T20:00:00' }, { reason: 'service' });
  sell(machine, '11', 3, '2026-11-21T20:00:00');
  office.take(machine, {});
  office.take(startMachine({ identity: { asset: 'B200' } }), { at: '2026-11-21T21:00:00' });
  office.addFile('=cmd().dex', new Uint8Array([1, 2, 3]), { day: '2026-11-21' });
  office.findings.push({ code: 'bad-row', severity: 'doubt', message: 'Row \u001b[31m.', machine: '=M1' });
  return office.make('2026-11-21');
}

describe('day.json', () => {
  it('is as its schema says (JSON Schema 2020-12, by an independent validator)', () => {
    const validate = new Ajv2020({ strict: false, formats: { date: true, 'date-time': true } }).compile(
      makeSchema('day'),
    );
    for (const one of [day, before, hostileDay()]) {
      const json: unknown = JSON.parse(writeDay(one).find(({ name }) => name === 'day.json')!.text);
      expect(validate(json), JSON.stringify(validate.errors)).toBe(true);
      expect(dayShape.parse(json)).toEqual(json);
    }
  });

  it('holds what the day holds, cautions in full', () => {
    const json = dayToJson(day);
    expect(json.totals).toEqual(day.totals);
    expect(json.settlements).toHaveLength(1);
    expect(json.attention.map(({ what }) => what)).toEqual(day.attention.map(({ what }) => what));
    const bag = day.attention.find(({ cause }) => cause === 'bag-differs')!;
    expect(attentionToJson(bag).cautions).toEqual([CAUTIONS.overShort, CAUTIONS.accounts]);
  });
});

describe('the tables of a day', () => {
  it('are six files', () => {
    expect([...files.keys()]).toEqual([
      'sales.csv',
      'cash.csv',
      'settlement.csv',
      'refill.csv',
      'attention.csv',
      'day.json',
    ]);
  });

  it('hold every row, amounts as decimals and what is not known as nothing', () => {
    const sales = rowsOf('sales.csv');
    expect(sales).toHaveLength(day.sales.length);
    expect(sales.reduce((sum, { value }) => sum + Math.round(Number(value) * 100), 0)).toBe(day.totals[0]!.value);
    expect(rowsOf('cash.csv')).toHaveLength(day.cash.length);
    expect(rowsOf('cash.csv')[0]).toMatchObject({ machine: 'V101', token_sales: '', currency: 'EUR', decimals: '2' });
    expect(rowsOf('refill.csv').map(({ to_fill }) => Number(to_fill))).toEqual(day.refill.map(({ toFill }) => toFill));
    expect(rowsOf('settlement.csv')).toHaveLength(8);
  });

  it('have the list in its order, with what it may cost', () => {
    expect(rowsOf('attention.csv').map((row) => [row.rank, row.machine, row.at_stake, row.bound, row.per_day])).toEqual(
      [
        ['1', 'V105', '49.00', 'about', ''],
        ['2', 'V106', '5.00', 'exact', ''],
        ['3', 'V108', '2.00', 'at-most', ''],
        ['4', 'V107', '0.60', 'exact', '0.17'],
      ],
    );
    expect(rowsOf('attention.csv')[1]).toMatchObject({ cause: 'bag-differs', codes: 'short', files: 'counts.csv' });
  });

  it('keep their columns and the order of these', () => {
    const heads = [DAY_SALES_TABLE, DAY_CASH_TABLE, DAY_REFILL_TABLE, DAY_ATTENTION_TABLE].map((table) =>
      table.columns.map(([name]) => name).join(','),
    );
    expect(heads).toEqual([
      'machine,location,route,column,product,from,to,sold,value,test,free,price_from,price_to,price_plan,loss,unexplained,currency,decimals,flags,replaces',
      'machine,location,route,from,to,sold,value,cash_in,to_cash_box,to_tubes,bills,dispensed,by_hand,filled,overpaid,cash_sales,card_sales,token_sales,credited,tubes_from,tubes_to,tube_difference,customer_difference,currency,decimals,flags,replaces',
      'machine,location,route,column,product,to_fill,left,par,capacity,since,until,basis,sold,test,free,sold_out,flags',
      'rank,machine,location,route,driver,severity,cause,what,at_stake,bound,per_day,currency,decimals,how_estimated,todo,cautions,codes,files',
    ]);
    expect(attentionRows(day.attention).map(({ rank }) => rank)).toEqual([1, 2, 3, 4]);
  });

  it('are a head alone where there are no rows', () => {
    const empty = writeDay(new DayScenario({}).make('2026-11-21'));
    for (const { name, text } of empty.slice(0, 5)) {
      expect(
        text.split('\r\n').filter((line) => line !== ''),
        name,
      ).toHaveLength(1);
    }
  });

  it('are the same when they are written part by part', () => {
    const texts = new Map<string, string>();
    const append = (pieces: readonly DayFile[]) => {
      for (const { name, text } of pieces) texts.set(name, (texts.get(name) ?? '') + text);
    };
    const writer = new DayWriter();
    append(writer.begin());
    const nothing = { ...day, sales: [], cash: [], settlements: [], refill: [], attention: [], totals: [] };
    const none = { files: 0, sound: 0, doubtful: 0, readAgain: 0, setAside: 0, reads: 0, duplicates: 0 };
    const rest = { ...nothing, files: none, machines: { expected: 0, read: 0, unknown: 0 } };
    const sales = day.sales.slice(0, 7);
    const addPart = (part: Day) => {
      writer.add(part);
      append(writer.rows(part));
    };
    addPart({ ...rest, sales, attention: day.attention.slice(2), settlements: day.settlements });
    addPart({ ...day, sales: day.sales.slice(7), attention: day.attention.slice(0, 2), settlements: [] });
    const { files: last, day: summary } = writer.end();
    append(last);
    expect(texts).toEqual(files);
    expect(summary).toMatchObject({ attention: day.attention, totals: day.totals, sales: [], settlements: [] });
    expect(() => new DayWriter().end()).toThrow(RangeError);
  });

  it('let no text from outside act as a formula, or hide', () => {
    for (const { name, text } of writeDay(hostileDay())) {
      expect(text, name).not.toMatch(/\u001b/);
      if (name === 'day.json') continue;
      expect(text, name).not.toMatch(/(^|,|\n)"?=/);
    }
  });
});

describe('the list as text', () => {
  it('says where, what it may cost, what is wrong and what to do, with the cautions once at the end', () => {
    const text = layDay(day, PLAIN_STYLE);
    expect(text.every((line) => line.length <= 80)).toBe(true);
    expect(text.slice(0, 5)).toEqual([
      '2026-11-23: 8 of 8 machines read.',
      '  15 files: 13 sound, 2 doubtful.',
      '  Sold 300 for 416.90 EUR.',
      '',
      '4 things to look at, worst first',
    ]);
    expect(text.join('\n')).toContain(`
4. V107, Town archive: 0.60 EUR, and about 0.17 EUR a day
   Column 23 is priced 1.40 EUR, the plan says 1.50 EUR.
   Do: Set the price and check the label, or correct the plan. [1][2][3]
   price-off-plan

Cautions
  [1] Switch off and unplug before connecting or disconnecting any harness.`);
    const cautions = text.slice(text.indexOf('Cautions') + 1);
    expect(cautions.filter((line) => /^ {2}\[\d\]/.test(line))).toHaveLength(5);
  });

  it('says what else came in', () => {
    const text = layDay(hostileDay(), PLAIN_STYLE).join('\n');
    expect(text).toMatch(/^2026-11-21: 1 of 1 machine read, and 1 machine that no roster has\.\n/);
    expect(text).toContain('3 files: 1 sound, 1 doubtful, 1 set aside.');
    expect(text).toContain('No machine: cost not known');
    expect(text).not.toContain('\u001b');
    expect(layDay(before, PLAIN_STYLE).slice(1, 3)).toEqual([
      '  9 files: 7 sound, 1 doubtful, 1 to be read again; 1 read came more than once',
      '  and counts once.',
    ]);
    expect(layDay(new DayScenario({}).make('2026-11-21'), PLAIN_STYLE)).toEqual([
      '2026-11-21: 0 of 0 machines read.',
      '  0 files.',
      '',
      'Nothing to look at.',
    ]);
  });

  it('says of how many intervals it is not known what was sold', () => {
    const open = { currency: 'EUR', decimals: 2, intervals: 3, openIntervals: 2 };
    const lay = (sold: number | null, value: number | null) =>
      layDay({ ...day, totals: [{ ...open, sold, value }], attention: [] }, PLAIN_STYLE)[2];
    expect(lay(5, 700)).toBe('  Sold 5 for 7.00 EUR; what was sold in 2 intervals more is not known.');
    expect(lay(null, null)).toBe('  What was sold is not known: 2 intervals without figures.');
  });

  it('needs no cautions where nobody is sent anywhere', () => {
    const item: AttentionItem = { ...day.attention[0]!, cause: ATTENTION_CAUSES[0], cautions: [], location: null };
    expect(layAttention([item], PLAIN_STYLE).join('\n')).not.toContain('Cautions');
    expect(layAttention([item], PLAIN_STYLE)[0]).toBe('1 thing to look at, worst first');
  });

  it.each([
    [{ amount: 1200, bound: 'exact', perDay: null }, '12.00 EUR'],
    [{ amount: 1200, bound: 'about', perDay: 300 }, 'about 12.00 EUR, and about 3.00 EUR a day'],
    [{ amount: 1200, bound: 'at-least', perDay: null }, 'at least 12.00 EUR'],
    [{ amount: 1200, bound: 'at-most', perDay: null }, 'up to 12.00 EUR'],
    [{ amount: null, bound: null, perDay: 300 }, 'about 3.00 EUR a day'],
    [{ amount: null, bound: null, perDay: null }, 'cost not known'],
  ] as const)('says %j as "%s"', (stake, words) => {
    const whole: Stake = { ...stake, how: '' };
    expect(describeStake({ stake: whole, currency: 'EUR', decimals: 2 })).toBe(words);
  });
});
