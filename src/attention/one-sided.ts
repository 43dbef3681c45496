import { makeFinding, printable } from '../findings/index.js';
import { addAll, describeMoney, type LocalDate, largestOf, type Minor } from '../model/index.js';
import type { AttentionItem } from './attention-item.js';
import { CAUSE_RULES } from './rules/index.js';
import { stakeOf } from './stake.js';

/** The settled bags of one machine, or of one driver, as they stand, in one money. */
export interface SettledBags {
  readonly of: 'machine' | 'driver';
  readonly name: string;
  readonly currency: string | null;
  readonly decimals: number | null;
  /** Oldest first; over/short in minor units. Bags that are not settled, or are joined to a later one, are not here. */
  readonly bags: readonly { readonly day: LocalDate; readonly overShort: Minor }[];
  /** Whether one of them is of the day that is looked at: else it was said before. */
  readonly isNew: boolean;
}

/** Bags of which all that differ do so in one direction. */
export interface OneSided extends Omit<SettledBags, 'isNew'> {
  /** How many of the bags differ. */
  readonly differing: number;
  /** What they come to together; below 0 is short. */
  readonly overShort: Minor;
  /** One in so many machines (or drivers) shows this by chance alone. */
  readonly odds: number;
  /** How many machines (or drivers) were looked at. */
  readonly lookedAt: number;
}

/**
 * With fewer bags that differ nothing can be said: five of one sign come about by chance once in 16 (sign test).
 */
export const FEWEST_BAGS = 6;
/** So many of the last bags are looked at. */
export const MOST_BAGS = 30;

/**
 * Machines and drivers whose bags, where they differ at all, always differ in one direction.
 *
 * If nothing but chance makes differences, over is as likely as short, so that n of one sign come about in 2 of 2^n cases:
 * the two-sided sign test, ties left out (W. J. Dixon and A. M. Mood, "The statistical sign test", Journal of the American
 * Statistical Association 41, 1946). Who looks at many machines at once sees such runs by chance among them; so one is named
 * only where fewer than one in two lists of that length would show any (Bonferroni's inequality, as in the NIST/SEMATECH
 * e-Handbook of Statistical Methods, 7.4.7.3).
 */
export function findOneSided(all: readonly SettledBags[]): OneSided[] {
  const judged = all
    .map((one) => ({ ...one, bags: one.bags.slice(-MOST_BAGS) }))
    .map((one) => ({ one, differing: differingOf(one) }));
  const able = judged.filter(({ differing }) => differing.length >= FEWEST_BAGS);
  return able.flatMap(({ one: { isNew, ...rest }, differing }) => {
    const lookedAt = able.filter(({ one }) => one.of === rest.of).length;
    const overShort = addAll(differing);
    const odds = 2 ** (differing.length - 1);
    const isOneSided = differing.every((amount) => amount < 0 === differing[0]! < 0);
    if (!isNew || !isOneSided || overShort === null || odds < 2 * lookedAt) return [];
    return [{ ...rest, differing: differing.length, overShort, odds, lookedAt }];
  });
}

const differingOf = ({ bags }: Pick<SettledBags, 'bags'>): Minor[] =>
  bags.map(({ overShort }) => overShort).filter((amount) => amount !== 0);

/** One of them as a line of the list. */
export function lookAtOneSided(found: OneSided): AttentionItem {
  const { of, name, currency, decimals, bags, overShort } = found;
  const { cause, todo, cautions } = CAUSE_RULES['one-sided'];
  const message = sayOneSided(found);
  const machine = of === 'machine' ? name : null;
  const finding = makeFinding('one-sided', message, {
    ...(machine === null ? {} : { machine }),
    advice: todo,
    cautions,
  });
  const how = `What ${bags.length} bags since ${bags[0]!.day} are over or short together.`;
  return {
    machine,
    location: null,
    route: null,
    driver: of === 'driver' ? name : null,
    cause,
    severity: finding.severity,
    what: message,
    stake: stakeOf(Math.abs(overShort), 'exact', how),
    currency,
    decimals,
    todo,
    cautions,
    codes: [finding.code],
    findings: [finding],
  };
}

function sayOneSided({ of, name, bags, differing, overShort, odds, lookedAt, currency, decimals }: OneSided): string {
  const whose = of === 'machine' ? `machine ${printable(name, 60)}` : printable(name, 60);
  const last = `the last ${bags.length} bags of ${whose}, since ${bags[0]!.day}`;
  const way = overShort < 0 ? 'short' : 'over';
  const agreed = bags.length - differing;
  const which =
    agreed === 0
      ? `All of ${last}, are ${way}`
      : `Of ${last}, ${agreed} ${agreed === 1 ? 'agrees' : 'agree'} and all others (${differing}) are ${way}`;
  const largest = largestOf(bags.map((bag) => Math.abs(bag.overShort)));
  const money = `${describeMoney(Math.abs(overShort), decimals, currency)} together, ${describeMoney(largest, decimals, currency)} at most`;
  const among = lookedAt === 1 ? '' : `; ${lookedAt} were looked at`;
  return `${which}: ${money}. Chance alone does that to one ${of} in ${odds}${among}.`;
}
