import { describe, expect, it } from 'vitest';
import { checkCapture } from '../../../src/checks/index.js';
import { cautionsOfVerdict, describeCapture } from '../../../src/driver/desk/capture-line.js';
import { describeColumns } from '../../../src/driver/desk/describe-columns.js';
import { writeCheckLines } from '../../../src/driver/desk/write-lines.js';
import { CABINET_CAUTIONS, makeFinding, sayCautions } from '../../../src/findings/index.js';
import { readCaptures } from '../../../src/read/index.js';
import { checkToJson } from '../../../src/report/index.js';
import { buildCapture } from '../../support/build-capture.js';

const GOOD = buildCapture(['ID1*S1*M1****A1', 'ID4*2*978*EUR', 'VA1*100*1']);
const part = (bytes: Uint8Array, firstRead = 0) => ({ ...checkCapture('a.dex', bytes), firstRead });

describe('describeCapture', () => {
  it('is as bad as the worst part of a file', () => {
    const bad = part(buildCapture(['ID1*S1*M1', 'VA1*1*1'], { crc: 'wrong' }), 5000);
    expect(describeCapture(3, [part(GOOD), bad])).toMatchObject({
      id: 3,
      file: 'a.dex',
      verdict: 'read-again',
      headline: bad.headline,
      machine: 'A1',
      clock: null,
      cautions: sayCautions(CABINET_CAUTIONS),
    });
  });

  it('names no machine where none is named', () => {
    expect(describeCapture(0, [part(new Uint8Array())]).machine).toBeNull();
    expect(describeCapture(0, [part(buildCapture(['ID1*S7', 'VA1*1*1']))]).machine).toBe('S7');
    expect(describeCapture(0, [part(buildCapture(['ID1', 'VA1*1*1']))]).machine).toBeNull();
  });
});

describe('cautionsOfVerdict', () => {
  it('adds to those of the findings what holds at any cabinet, in one order', () => {
    const active = makeFinding('event-active', 'x', { advice: 'Look.', cautions: ['food'] });
    expect(cautionsOfVerdict('doubtful', [active])).toEqual(sayCautions([...CABINET_CAUTIONS, 'food']));
    expect(cautionsOfVerdict('doubtful', [])).toEqual(sayCautions(CABINET_CAUTIONS));
    expect(cautionsOfVerdict('sound', [])).toEqual([]);
  });
});

describe('describeColumns', () => {
  it('takes the name of a product from the plan, else from the machine', () => {
    const [read] = readCaptures(buildCapture(['ID1*S1*M1', 'PA1*11*100*Own', 'PA2*3*300', 'PA5*261120'])).reads;
    expect(describeColumns(read!, () => null)).toEqual([
      {
        column: '11',
        product: 'Own',
        price: 100,
        pricePlan: null,
        sold: 3,
        value: 300,
        soldSinceReset: null,
        valueSinceReset: null,
        soldOutAt: '2026-11-20',
      },
    ]);
    const planned = describeColumns(read!, (column) => ({ product: `Plan ${column}`, price: 120 }));
    expect(planned[0]).toMatchObject({ product: 'Plan 11', pricePlan: 120 });
  });
});

describe('writeCheckLines', () => {
  const general = [makeFinding('duplicate-row', 'x', { row: 3 })];

  it('gives a line a part, what belongs to none of them on the first', () => {
    const text = writeCheckLines([part(GOOD), part(GOOD, 5000)], general);
    const [first, second] = text
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as object);
    expect(first).toEqual({
      ...checkToJson(part(GOOD)),
      general: [expect.objectContaining({ code: 'duplicate-row' })],
    });
    expect(second).toEqual(checkToJson(part(GOOD, 5000)));
  });

  it('gives what belongs to no capture alone, or nothing', () => {
    expect(JSON.parse(writeCheckLines([], general))).toEqual({ general: [expect.objectContaining({ row: 3 })] });
    expect(writeCheckLines([], [])).toBe('');
  });
});
