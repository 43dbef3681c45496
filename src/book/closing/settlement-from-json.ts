import { type Finding, findCaution } from '../../findings/index.js';
import type { FindingJson, SettlementJson } from '../../report/index.js';
import type { Settlement, Visit } from '../../settlement/index.js';

/**
 * A settlement as an entry has it, for everything that shows one. What no entry has is left empty: the rows counted, and the
 * intervals that the figures were worked out from.
 */
export function settlementFromJson(json: SettlementJson): Settlement {
  const { route, day, from, to, currency, decimals, visits, totals, drivers, findings } = json;
  return {
    route,
    day,
    from,
    to,
    currency,
    decimals,
    visits: visits.map((visit) => visitFromJson(visit, route)),
    totals,
    drivers,
    findings: findings.map(findingFromJson),
  };
}

function visitFromJson(visit: SettlementJson['visits'][number], route: string | null): Visit {
  const { cardSales, sold, value, loss, findings, driver, ...rest } = visit;
  return {
    ...rest,
    route,
    driver,
    drivers: driver === null ? [] : [driver],
    sales: { sold, value, cardSales, loss, hasPlan: loss !== null },
    expectedFrom: [],
    interval: null,
    counts: [],
    joinedCounts: [],
    isOtherMoney: false,
    findings: findings.map(findingFromJson),
  };
}

function findingFromJson({
  advice,
  cautions = [],
  segment,
  element,
  line,
  offset,
  read,
  ...rest
}: FindingJson): Finding {
  const names = cautions.map(findCaution).filter((name) => name !== null);
  // Words that no caution has any more stay with the advice.
  const others = cautions.filter((words) => findCaution(words) === null);
  const said = {
    ...rest,
    advice: others.length === 0 ? advice : [advice, ...others].join(' '),
    ...{ segment, element, line, offset, read },
    cautions: names.length === 0 ? null : names,
  };
  // A finding leaves out what it does not say.
  return Object.fromEntries(
    Object.entries(said).filter(([, value]) => value !== null && value !== undefined),
  ) as unknown as Finding;
}
