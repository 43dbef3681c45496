import type { AttentionItem, Stake } from '../../attention/index.js';
import { CAUTIONS, type CautionName, cautionsOf, printable } from '../../findings/index.js';
import { describeMoney, type Minor } from '../../model/index.js';
import type { Style } from './style.js';
import { plural } from './words.js';
import { hangText } from './wrap-text.js';

const LONGEST_TEXT = 1200;

/**
 * What a person has to look at, worst first: what it may cost and where, then what is wrong and what to do. The cautions
 * that go with what is to be done stand once at the end, each with the number by which the items point to it.
 *
 * @param items - in order
 */
export function layAttention(items: readonly AttentionItem[], style: Style): string[] {
  if (items.length === 0) return ['Nothing to look at.'];
  const used = cautionsOf(items);
  const width = String(items.length).length + 2;
  return [
    style.bold(`${plural(items.length, 'thing')} to look at, worst first`),
    ...items.flatMap((item, place) => ['', ...layItem(item, `${place + 1}.`.padEnd(width), used, style)]),
    ...layCautionList(used, style),
  ];
}

function layItem(item: AttentionItem, label: string, used: readonly CautionName[], style: Style): string[] {
  const { machine, location, what, todo, cautions, codes } = item;
  const names = [machine ?? 'No machine', location].filter((name) => name !== null).join(', ');
  const [first, ...rest] = hangText(label, printable(`${names}: ${describeStake(item)}`, LONGEST_TEXT));
  const indent = ' '.repeat(label.length);
  const marks = cautions.map((name) => `[${used.indexOf(name) + 1}]`).join('');
  return [
    ...[first!, ...rest].map(style.bold),
    ...hangText(indent, printable(what, LONGEST_TEXT)),
    ...hangText(`${indent}Do: `, marks === '' ? todo : `${todo} ${marks}`),
    ...hangText(indent, codes.join(', ')).map(style.dim),
  ];
}

const BOUND_WORDS = { exact: '', about: 'about ', 'at-least': 'at least ', 'at-most': 'up to ' } as const;

/** What something may cost, in words: `about 12.00 EUR, and about 3.00 EUR a day`. */
export function describeStake(item: Pick<AttentionItem, 'stake' | 'currency' | 'decimals'>): string {
  const { amount, bound, perDay }: Stake = item.stake;
  const money = (value: Minor): string => describeMoney(value, item.decimals, item.currency);
  const parts = [
    amount === null || bound === null ? null : `${BOUND_WORDS[bound]}${money(amount)}`,
    perDay === null ? null : `about ${money(perDay)} a day`,
  ].filter((part) => part !== null);
  return parts.length === 0 ? 'cost not known' : parts.join(', and ');
}

function layCautionList(used: readonly CautionName[], style: Style): string[] {
  if (used.length === 0) return [];
  return ['', style.bold('Cautions'), ...used.flatMap((name, place) => hangText(`  [${place + 1}] `, CAUTIONS[name]))];
}
