import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { checkCapture } from '../../../src/checks/index.js';
import { explainCapture, traceFigure } from '../../../src/explain/index.js';
import {
  checkToJson,
  explainedToJson,
  figureToJson,
  installToJson,
  intervalToJson,
  makeSchema,
  type SchemaName,
  settlementToJson,
} from '../../../src/report/index.js';
import { Roster } from '../../../src/sheets/index.js';
import { pairInterval } from '../../explain/pair-interval.js';
import { buildCapture } from '../../support/build-capture.js';
import { settleDemo } from '../../support/demo-files.js';

/** Hold a value against the schema that users get, by a validator that is not ours. */
function expectValid(name: SchemaName, value: unknown): void {
  const validate = new Ajv2020({ strict: true, allowUnionTypes: true, allErrors: true }).compile(makeSchema(name));
  validate(JSON.parse(JSON.stringify(value)));
  expect(validate.errors).toBeNull();
}

const [settlement] = settleDemo().settlements;
const interval = pairInterval(
  ['PA1*11*150', 'PA2*0*0', 'CA3*****0*0*0', 'CA15*500'],
  ['PA1*11*160', 'PA2*12*1850', 'CA3*****900*500*400', 'CA15*900'],
  { plan: ['11,1.50'] },
);

describe('outputs', () => {
  it('are as their schemas say', () => {
    expectValid('check', checkToJson(checkCapture('a.dex', buildCapture(['ID1*S1*M1', 'PA1*11*x'], { seCount: 9 }))));
    expectValid('interval', intervalToJson(interval));
    expectValid('settlement', settlementToJson(settlement!));
    expectValid('figure', figureToJson(traceFigure(interval, 'columns.11.sold')!, 'M1'));
    const [segment] = explainCapture('a.dex', buildCapture(['ID1*S1']), { roster: new Roster() });
    expectValid('explanation', explainedToJson('a.dex', segment!));
    const item = { id: 'clock', what: 'x', state: 'pass', detail: 'y', advice: null } as const;
    expectValid(
      'install',
      installToJson({ file: 'a.dex', second: null, check: { passed: true, headline: 'x', items: [item] } }),
    );
  });

  // The names of the output contract: a program that reads them must not break.
  it('have the names that programs rely on', () => {
    const check = checkToJson(checkCapture('a.dex', buildCapture(['ID1*S1*M1'])));
    expect(Object.keys(check)).toEqual(expect.arrayContaining(['file', 'verdict', 'reads', 'findings']));
    const read = ['machine', 'clock', 'currency', 'decimals', 'segments', 'integrity', 'complete', 'columns'];
    expect(Object.keys(check.reads[0]!)).toEqual(expect.arrayContaining(read));
    expect(Object.keys(check.findings[0]!)).toEqual(
      expect.arrayContaining(['code', 'severity', 'message', 'advice', 'segment', 'element', 'line', 'offset', 'read']),
    );
    const { columns, cash, totals } = intervalToJson(interval);
    expect(columns[0]).toMatchObject({
      ...{ column: '11', product: null, sold: 12, value: 1850, priceFrom: 150, priceTo: 160, pricePlan: 150 },
      split: [
        { count: 7, price: 150 },
        { count: 5, price: 160 },
      ],
      ...{ test: null, free: null, unexplained: 0 },
    });
    const names =
      'cashIn toCashBox toTubes bills dispensed byHand filled overpaid cashSales cardSales tubesFrom tubesTo tubeDifference';
    expect(Object.keys(cash)).toEqual(expect.arrayContaining(names.split(' ')));
    expect(Object.keys(totals)).toEqual(expect.arrayContaining(['sold', 'value', 'test', 'free']));
    const round = settlementToJson(settlement!);
    const ofRound = ['route', 'from', 'to', 'currency', 'decimals', 'visits', 'totals', 'findings'];
    expect(Object.keys(round)).toEqual(expect.arrayContaining(ofRound));
    const ofVisit =
      'machine location driver visitedAt bag matchedBy capture since expected counted overShort state findings';
    expect(Object.keys(round.visits[0]!)).toEqual(expect.arrayContaining(ofVisit.split(' ')));
    const ofTotals = ['expected', 'counted', 'overShort', 'cardSales', 'sold', 'value'];
    expect(Object.keys(round.totals)).toEqual(expect.arrayContaining(ofTotals));
  });

  it('say null for what is not known, never 0', () => {
    const { totals, cash, currency } = intervalToJson(pairInterval(['ID4*'], ['ID4*']));
    expect([currency, totals.sold, totals.value, cash.cashIn, cash.tubesTo]).toEqual([null, null, null, null, null]);
  });
});
