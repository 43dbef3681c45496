import { describe, expect, it } from 'vitest';
import { depositsToJson, statementToJson } from '../../../src/report/json/accounts-json.js';
import { depositsShape, statementShape } from '../../../src/report/shapes/accounts.js';
import { matchExample, stateExample } from '../../accounts/example-accounts.js';

const deposits = depositsToJson(matchExample());
const statement = statementToJson(stateExample()[0]!);

describe('the shapes of accounts', () => {
  it.each([
    ['a rate that is a number', { totals: [{ ...deposits.totals[0]!, feePercent: 2.5 }] }],
    ['an amount with a fraction', { totals: [{ ...deposits.totals[0]!, gross: 10.5 }] }],
    ['a state of another name', { matches: [{ ...deposits.matches[0]!, state: 'fine' }] }],
    ['a reason of another name', { matches: [{ ...deposits.matches[0]!, reason: 'luck' }] }],
    ['a time with a zone', { matches: [{ ...deposits.matches[0]!, from: '2026-11-16T00:05:00Z' }] }],
  ])('take no %s', (_, change) => {
    expect(depositsShape.safeParse(deposits).success).toBe(true);
    expect(depositsShape.safeParse({ ...deposits, ...change }).success).toBe(false);
  });

  it.each([
    ['a remainder that is a number', { tax: { amount: 1, remainder: 0.5 } }],
    ['a remainder that is no fraction', { tax: { amount: 1, remainder: '1/' } }],
    ['an amount without its remainder', { commission: { amount: 1 } }],
    ['a statement without its caution', { caution: undefined }],
  ])('take no %s', (_, change) => {
    expect(statementShape.safeParse(statement).success).toBe(true);
    expect(statementShape.safeParse({ ...statement, ...change }).success).toBe(false);
  });
});
