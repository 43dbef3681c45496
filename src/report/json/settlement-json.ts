import type { Settlement, Visit } from '../../settlement/index.js';
import type { BookFactsJson } from '../shapes/closing.js';
import type { SettlementJson } from '../shapes/settlement.js';
import { findingToJson } from './finding-json.js';

/** A settlement that was looked up in a book as programs get it. */
export function bookSettlementToJson(settlement: Settlement, inBook: BookFactsJson): SettlementJson {
  const { drivers, ...facts } = inBook;
  return { ...settlementToJson(settlement), ...facts, drivers: [...drivers] };
}

/** A settlement as programs get it. */
export function settlementToJson(settlement: Settlement): SettlementJson {
  const { route, day, from, to, currency, decimals, visits, totals, drivers, findings } = settlement;
  return {
    route,
    day,
    from,
    to,
    currency,
    decimals,
    visits: visits.map(visitToJson),
    totals,
    drivers: [...drivers],
    findings: findings.map(findingToJson),
  };
}

function visitToJson(visit: Visit): SettlementJson['visits'][number] {
  const { machine, location, driver, visitedAt, bag, matchedBy, capture, since, sinceTime, currency, decimals } = visit;
  const { expected, expectedIsFloor, expectedLines, counted, overShort, state, jointBags, sales, findings } = visit;
  return {
    machine,
    location,
    driver,
    visitedAt,
    bag,
    matchedBy,
    capture,
    since,
    sinceTime,
    currency,
    decimals,
    expected,
    expectedIsFloor,
    expectedLines: [...expectedLines],
    counted,
    overShort,
    state,
    jointBags: [...jointBags],
    cardSales: sales.cardSales,
    sold: sales.sold,
    value: sales.value,
    loss: sales.loss,
    findings: findings.map(findingToJson),
  };
}
