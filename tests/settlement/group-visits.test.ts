import { describe, expect, it } from 'vitest';
import { groupVisits } from '../../src/settlement/group-visits.js';
import { makeCount, makeMachine, type Scenario, type Shown, visitsOf } from './scenario.js';

const service = { reason: 'service' } as const;
const when = '2026-11-24T10:00';
const machine = (n: number, more = {}) =>
  makeMachine({ machine: `M${n}`, asset: `A${n}`, route: 'R1', driver: 'Kim', ...more });
const capture = (n: number, shown: Partial<Shown> = {}): Shown => ({
  at: '2026-11-20T10:00',
  asset: `A${n}`,
  serial: `S${n}`,
  ...service,
  ...shown,
});

/** A round of two machines in the moneys given, each with a bag that agrees. */
function round(
  moneys: readonly (string | null)[],
  more: Partial<Scenario> = {},
  machines = [machine(1), machine(2)],
): Scenario {
  const captures: Record<string, Shown> = {};
  for (const [i, money] of moneys.entries()) {
    captures[`${i}a`] = capture(i + 1, { money });
    captures[`${i}b`] = capture(i + 1, { money, at: when, box: 1000 });
  }
  const counts = moneys.map((_, i) => makeCount(`M${i + 1}`, when, { coins: 1000, bills: 0, row: i + 2 }));
  return { captures, counts, machines, ...more };
}

const group = (scenario: Scenario) => groupVisits(visitsOf(scenario));
const outline = (scenario: Scenario) =>
  group(scenario).map(({ route, day, currency, visits, totals, findings }) => [
    route,
    day,
    currency,
    visits.map((visit) => visit.machine).join(' '),
    totals.counted.coins,
    findings.map(({ message }) => message).join(),
  ]);

const EUR = '2*978*EUR';
const USD = '2*840*USD';

describe('groupVisits', () => {
  it('makes one settlement a route and day', () => {
    expect(outline(round([EUR, EUR]))).toEqual([['R1', '2026-11-24', 'EUR', 'M1 M2', 2000, '']]);
    expect(outline(round([EUR, EUR], {}, [machine(1), machine(2, { route: 'R2' })]))).toEqual([
      ['R1', '2026-11-24', 'EUR', 'M1', 1000, ''],
      ['R2', '2026-11-24', 'EUR', 'M2', 1000, ''],
    ]);
  });

  it('keeps no route apart from a route, whatever that is called', () => {
    const routes = (a: string | null, b: string | null) => [machine(1, { route: a }), machine(2, { route: b })];
    expect(outline(round([EUR, EUR], {}, routes('null', null))).map(([route]) => route)).toEqual([null, 'null']);
    expect(outline(round([EUR, EUR], {}, routes('', null))).map(([route]) => route)).toEqual([null, '']);
  });

  it('adds no two currencies: each is settled by itself, and that is said', () => {
    const says = 'This round has amounts in EUR and USD; each is settled by itself, and nothing is added across them.';
    expect(outline(round([EUR, USD]))).toEqual([
      ['R1', '2026-11-24', 'EUR', 'M1', 1000, says],
      ['R1', '2026-11-24', 'USD', 'M2', 1000, says],
    ]);
  });

  it('adds no amounts with other decimals either', () => {
    const machines = [machine(1), machine(2, { decimals: 3 })];
    expect(outline(round([EUR, '3*978*EUR'], {}, machines)).map((row) => [row[2], row[3], row[5]])).toEqual([
      [
        'EUR',
        'M1',
        'This round has amounts in EUR with 2 decimals and EUR with 3 decimals; each is settled by itself, and nothing is added across them.',
      ],
      ['EUR', 'M2', expect.stringContaining('3 decimals')],
    ]);
  });

  it('lists a bag of unknown currency with its round where that has one, and adds it to nothing', () => {
    const scenario = round([EUR, EUR]);
    const counts = [...scenario.counts, makeCount('M9', when, { coins: 70, route: 'R1', row: 9 })];
    const [settlement, ...others] = group({ ...scenario, counts });
    expect(others).toEqual([]);
    expect(settlement!.visits.map((visit) => visit.machine)).toEqual(['M1', 'M2', 'M9']);
    expect(settlement).toMatchObject({
      currency: 'EUR',
      totals: { counted: { coins: 2000 }, openVisits: 1, countedOpen: { coins: null, bills: null } },
      findings: [],
    });
  });

  it('settles it apart where the round has two currencies, or where it is settled in no known one', () => {
    const scenario = round([EUR, USD]);
    const counts = [...scenario.counts, makeCount('M9', when, { coins: 70, route: 'R1', row: 9 })];
    expect(group({ ...scenario, counts }).map(({ currency, visits }) => [currency, visits.length])).toEqual([
      [null, 1],
      ['EUR', 1],
      ['USD', 1],
    ]);
    expect(group(round([EUR, null])).map(({ currency, visits }) => [currency, visits[0]!.machine])).toEqual([
      [null, 'M2'],
      ['EUR', 'M1'],
    ]);
  });

  it('says the unit that is not known too', () => {
    const machines = [machine(1), machine(2)];
    const scenario = round([EUR, '*978*EUR'], {}, machines);
    expect(
      group(scenario)[0]!
        .findings.map(({ message }) => message)
        .join(),
    ).toContain('EUR with unknown decimals');
  });

  it('runs from the earliest collection counted from to the latest visit, in the order of the round', () => {
    const scenario = round([EUR, EUR]);
    const captures = { ...scenario.captures, '0b': capture(1, { at: '2026-11-24T16:00', box: 1000 }) };
    const counts = [makeCount('M1', '2026-11-24T16:00', { coins: 1000 }), makeCount('M2', when, { coins: 1000 })];
    const [settlement] = group({ ...scenario, captures, counts });
    expect(settlement).toMatchObject({ from: '2026-11-20T10:00:00', to: '2026-11-24T16:00:00' });
    expect(settlement!.visits.map((visit) => visit.machine)).toEqual(['M2', 'M1']);
    expect(group({ ...scenario, captures: {} })[0]!.from).toBeNull();
  });

  it('has rows of one machine and moment in the order of the sheet', () => {
    const counts = [5, 3, 4].map((row) => makeCount('M1', when, { coins: row, row }));
    const [settlement] = group({ ...round([EUR]), captures: {}, counts });
    expect(settlement!.visits.map((visit) => visit.counts[0]!.place.row)).toEqual([3, 4, 5]);
  });

  it('is empty without visits', () => {
    expect(groupVisits([])).toEqual([]);
  });
});
