import { makeFinding, printable } from '../findings/index.js';
import { describeMoney, type LocalDate, type Minor } from '../model/index.js';
import type { AttentionItem } from './attention-item.js';
import { CAUSE_RULES } from './rules/index.js';
import { stakeOf } from './stake.js';

/** A closed round that came out otherwise by what became known later, as it was recorded. */
export interface AdjustedRound {
  /** The adjustment's entry in the book. */
  readonly entry: number;
  /** The entry of the closing that it adjusts. */
  readonly settlement: number;
  readonly route: string | null;
  readonly day: LocalDate;
  readonly currency: string | null;
  readonly decimals: number | null;
  /** By how much over/short changed: below 0 more is missing than was said. Minor units. */
  readonly overShort: Minor;
  /** What it came of, in words. */
  readonly because: readonly string[];
  /** The machines whose visits changed. */
  readonly machines: readonly string[];
  /** Those who answer for a part of it; null is the route itself. */
  readonly drivers: readonly (string | null)[];
}

/** How many causes and machines are named. */
const MOST = 3;

/** One closed round that was adjusted, as a line of the list: each adjustment is a line of its own, whatever it comes to. */
export function lookAtAdjusted(round: AdjustedRound): AttentionItem {
  const { route, day, currency, decimals, overShort, machines, drivers } = round;
  const { cause, todo, cautions } = CAUSE_RULES['round-adjusted'];
  const message = `The round of ${route === null ? 'no route' : `route ${printable(route, 60)}`}, ${day}, was closed before this was known: ${sayChange(round)}.`;
  const only = <T>(all: readonly T[]): T | null => (all.length === 1 ? all[0]! : null);
  const machine = only(machines);
  const finding = makeFinding('round-adjusted', message, {
    ...(machine === null ? {} : { machine }),
    advice: `${todo} (settle --book, with --day ${day})`,
    cautions,
  });
  return {
    machine,
    location: null,
    route,
    driver: only(drivers),
    cause,
    severity: finding.severity,
    what: message,
    stake: stakeOf(Math.abs(overShort), 'exact', 'What over/short of the closed round changed by.'),
    currency,
    decimals,
    todo,
    cautions,
    codes: [finding.code],
    findings: [finding],
  };
}

function sayChange({ overShort, currency, decimals, because, machines, entry }: AdjustedRound): string {
  const amount =
    overShort === 0
      ? 'over/short stays as it was, and figures of it changed'
      : `over/short changed by ${overShort > 0 ? '+' : ''}${describeMoney(overShort, decimals, currency)}`;
  const of = machines.length === 0 ? '' : ` (${nameSome(machines)})`;
  const why = because.length === 0 ? '' : `, because of ${nameSome(because)}`;
  return `${amount}${of}${why}; adjustment in entry ${entry}`;
}

function nameSome(names: readonly string[]): string {
  const more = names.length - MOST;
  const named = names.slice(0, MOST).map((name) => printable(name, 120));
  return `${named.join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
}
