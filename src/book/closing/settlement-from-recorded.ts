import { type Finding, findCaution } from '../../findings/index.js';
import type { Settlement, Visit } from '../../settlement/index.js';
import type { RecordedSettlement } from './recorded-settlement.js';

/**
 * A settlement as an entry has it, for everything that shows one. What no entry has is left empty: the rows counted, and the
 * intervals that the figures were worked out from.
 */
export function settlementFromRecorded(recorded: RecordedSettlement): Settlement {
  const { route, day, from, to, currency, decimals, visits, totals, drivers, findings } = recorded;
  return {
    route,
    day,
    from,
    to,
    currency,
    decimals,
    visits: visits.map((visit) => visitFromRecorded(visit, route)),
    totals,
    drivers,
    findings: findings.map(findingFromRecorded),
  };
}

function visitFromRecorded(visit: RecordedSettlement['visits'][number], route: string | null): Visit {
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
    findings: findings.map(findingFromRecorded),
  };
}

/** Cautions that a closing recorded in words are names again; words that no caution has any more stay with the advice. */
function findingFromRecorded({ cautions, ...finding }: RecordedSettlement['findings'][number]): Finding {
  const words = cautions ?? [];
  const names = words.map(findCaution).filter((name) => name !== null);
  const others = words.filter((text) => findCaution(text) === null);
  const advice = others.length === 0 ? finding.advice : [finding.advice, ...others].filter(Boolean).join(' ');
  const said = { ...finding, advice, cautions: names.length === 0 ? null : names };
  // A finding leaves out what it does not say. A code may be one that is given up since.
  return Object.fromEntries(
    Object.entries(said).filter(([, value]) => value !== null && value !== undefined),
  ) as unknown as Finding;
}
