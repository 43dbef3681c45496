import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { CAUTIONS } from '../../../src/findings/index.js';
import { depositsToJson, statementToJson } from '../../../src/report/json/accounts-json.js';
import { writeJson } from '../../../src/report/json/write-json.js';
import { depositsShape, statementShape } from '../../../src/report/shapes/accounts.js';
import { matchExample, stateExample } from '../../accounts/example-accounts.js';

const schemaOf = (shape: z.ZodType) => z.toJSONSchema(shape, { target: 'draft-2020-12' });
// Formats are also given as patterns, which are held.
const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, validateFormats: false });

describe('depositsToJson', () => {
  const json = depositsToJson(matchExample());

  it('is what its shape says, by zod and by ajv', () => {
    expect(z.strictObject(depositsShape.shape).parse(json)).toEqual(json);
    const validate = ajv.compile(schemaOf(depositsShape));
    expect(validate(JSON.parse(writeJson(json))), JSON.stringify(validate.errors)).toBe(true);
    expect(validate({ ...json, totals: [{}] })).toBe(false);
  });

  it('gives every comparison with the deposits and captures it rests on', () => {
    expect(json.matches[1]).toMatchObject({
      machine: 'M1',
      location: '=Hall, 3',
      device: 'CR-1',
      state: 'differing',
      reason: null,
      from: '2026-11-17T00:05:00',
      sales: 480,
      gross: 450,
      fees: 12,
      net: 438,
      feePercent: '2.67',
      difference: -30,
      differenceIsAtLeast: false,
      deposits: [{ row: 3, date: '2026-11-18', reference: '@P-2', periodFrom: '2026-11-17', feePercent: '2.67' }],
      captures: ['read-1.dex', 'read-2.dex'],
      findings: [{ code: 'deposit-differs', severity: 'doubt' }],
    });
    expect(json.matches[2]).toMatchObject({
      fees: null,
      feePercent: null,
      deposits: [{ fees: null, feePercent: null }],
    });
    expect(json.matches.map(({ captures }) => captures.length)).toEqual([2, 2, 2, 2, 0]);
  });

  it('gives sums by currency, and what the rate is of', () => {
    expect(json.totals).toMatchObject([
      {
        currency: 'EUR',
        deposits: 3,
        gross: 2006,
        fees: 43,
        feePercent: '2.52',
        feesOfGross: 1706,
        withoutFees: 1,
        sales: { matched: 1556, differing: 480, missing: 500, extra: 0, open: 0, unclear: 0 },
      },
      { currency: null, deposits: 1, gross: 100, feePercent: '5.00' },
    ]);
    expect(depositsToJson({ matches: [], totals: [] })).toEqual({ matches: [], totals: [] });
    const { totals } = matchExample();
    expect(depositsToJson({ matches: [], totals: [{ ...totals[0]!, fee: null }] }).totals[0]).toMatchObject({
      feePercent: null,
      feesOfGross: null,
    });
  });

  it('gives no rate for a deposit that does not add up', () => {
    const { matches, totals } = matchExample();
    const [first] = matches;
    const deposits = first!.deposits.map((row) => ({ ...row, mismatch: 1 }));
    expect(
      depositsToJson({ matches: [{ ...first!, deposits }], totals }).matches[0]!.deposits[0]!.feePercent,
    ).toBeNull();
  });
});

describe('statementToJson', () => {
  const json = stateExample().map(statementToJson);

  it('is what its shape says, by zod and by ajv', () => {
    const validate = ajv.compile(schemaOf(statementShape));
    for (const one of json) {
      expect(z.strictObject(statementShape.shape).parse(one)).toEqual(one);
      expect(validate(JSON.parse(writeJson(one))), JSON.stringify(validate.errors)).toBe(true);
    }
  });

  it('gives amounts in minor units, what rounding left out as exact parts, and rates as exact decimals', () => {
    expect(json[0]).toMatchObject({
      location: '=Hall, 3',
      gross: 4736,
      tax: { amount: 662, remainder: '-958/12733' },
      net: 4074,
      taxOnTop: null,
      base: { amount: 4139 },
      commission: { amount: 481, remainder: '89/476' },
      isFloor: true,
      floors: { gross: true, tax: true, taxOnTop: false, commission: true },
      caution: CAUTIONS.accounts,
      lines: [
        {
          machine: 'M1',
          sales: 3736,
          commissionPercent: '12.5',
          commissionBase: 'net',
          taxPercent: '19',
          taxIncluded: true,
        },
        {
          machine: 'M2',
          isFloor: true,
          floors: { sales: true },
          commissionPercent: '8.875',
          commissionBase: 'gross',
          taxIncluded: null,
        },
      ],
    });
    expect(json[0]!.lines[0]!.captures).toEqual(['read-0.dex', 'read-1.dex', 'read-2.dex']);
    expect(json[2]).toMatchObject({ gross: null, tax: null, net: null, base: null, commission: null });
    expect(json[3]).toMatchObject({ commission: null, lines: [{ commissionPercent: null }] });
  });
});
