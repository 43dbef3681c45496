import { type Finding, makeFinding, printable } from '../../findings/index.js';
import { type CountRow, describeMoney } from '../../model/index.js';
import type { MoneyRules } from '../../sheets/index.js';
import { type BookCount, keysOfRows, toCountBody, toRow } from './book-counts.js';
import type { CountBody } from './shapes.js';

/** A count sheet as it was read. */
export interface CountSheet {
  readonly rows: readonly CountRow[];
  readonly findings: readonly Finding[];
  /** In which money its amounts were read. */
  readonly money: MoneyRules;
}

/** A bag that the round is settled with, and where it stands. */
export interface UsedCount {
  readonly row: CountRow;
  readonly key: string;
  readonly body: CountBody;
  /** The bag in the book; null for one that only the sheet has. */
  readonly inBook: BookCount | null;
  /** Whether `body` is not what the book has: the sheet corrects it. */
  readonly isCorrected: boolean;
}

/** Bags of the book and of a sheet, each once. */
export interface MergedCounts {
  readonly used: readonly UsedCount[];
  readonly findings: readonly Finding[];
}

/**
 * Put the rows of a sheet to the bags that are in the book. A bag that the book has counts as it was entered: a row that
 * says otherwise is a doubt and changes nothing, unless it is said to be a correction. A cell that the sheet leaves empty
 * takes nothing back. Notes and the time of counting decide nothing and are not compared.
 */
export function mergeCounts(
  inBook: readonly BookCount[],
  sheet: CountSheet | null,
  isCorrection: boolean,
): MergedCounts {
  const used = new Map(inBook.map((count) => [count.key, ofBook(count)]));
  const findings: Finding[] = [];
  const keys = sheet === null ? [] : keysOfRows(sheet.rows);
  for (const [i, key] of keys.entries()) {
    const row = sheet!.rows[i]!;
    const body = toCountBody(row, { ...moneyOf(row, sheet!.money), captureEntry: null, by: null });
    const old = used.get(key)?.inBook ?? null;
    if (old === null) {
      used.set(key, { row, key, body, inBook: null, isCorrected: false });
      continue;
    }
    const now = fillIn(old.body, body);
    const changed = FIELDS.filter((field) => now[field] !== old.body[field]);
    if (changed.length === 0) continue;
    if (isCorrection)
      used.set(key, {
        row: { ...toRow({ ...old, body: now }), place: row.place },
        key,
        body: now,
        inBook: old,
        isCorrected: true,
      });
    else findings.push(sayDiffers(old, now, changed, row));
  }
  return { used: [...used.values()], findings };
}

const ofBook = (count: BookCount): UsedCount => ({
  row: toRow(count),
  key: count.key,
  body: count.body,
  inBook: count,
  isCorrected: false,
});

function moneyOf({ machine }: CountRow, money: MoneyRules): Pick<CountBody, 'currency' | 'decimals'> {
  return { currency: money.currencyOf(machine), decimals: money.decimalsOf(machine) ?? money.defaultDecimals };
}

const AMOUNTS = ['coins', 'bills', 'paidOut', 'filled', 'floatIssued'] as const;
const UNITLESS: readonly Field[] = ['route', 'driver', 'capture', 'currency', 'decimals'];
const FIELDS: readonly Field[] = [...AMOUNTS, ...UNITLESS];
type Field = (typeof AMOUNTS)[number] | 'route' | 'driver' | 'capture' | 'currency' | 'decimals';

function isOtherMoney(a: CountBody, b: CountBody): boolean {
  const differs = <T>(x: T | null, y: T | null): boolean => x !== null && y !== null && x !== y;
  return differs(a.currency, b.currency) || differs(a.decimals, b.decimals);
}

/** The bag as it would be with what the sheet says of it. Its visit stays: by that it is the same bag. */
function fillIn(old: CountBody, sheet: CountBody): CountBody {
  // Amounts of two moneys are never put together: then the sheet's stand alone.
  const kept = isOtherMoney(old, sheet) ? UNITLESS : FIELDS;
  const said = Object.fromEntries(
    FIELDS.map((field) => [field, sheet[field] ?? (kept.includes(field) ? old[field] : null)]),
  );
  const isCaptureNamed = sheet.capture !== null && sheet.capture !== old.capture;
  // Pieces that a corrected amount was not made of would contradict it.
  const isCounted = sheet.denominations.length > 0 || AMOUNTS.some((field) => said[field] !== old[field]);
  return {
    ...old,
    ...said,
    ...(isCaptureNamed ? { captureEntry: null } : {}),
    ...(isCounted ? { denominations: sheet.denominations } : {}),
    countedAt: sheet.countedAt ?? old.countedAt,
    note: sheet.note ?? old.note,
    place: sheet.place,
  };
}

const WORDS: Readonly<Record<Field, string>> = {
  coins: 'coins',
  bills: 'bills',
  paidOut: 'paid out',
  filled: 'filled',
  floatIssued: 'float issued',
  route: 'route',
  driver: 'driver',
  capture: 'capture',
  currency: 'currency',
  decimals: 'decimals',
};

function sayDiffers(
  { entry, body }: BookCount,
  now: CountBody,
  changed: readonly Field[],
  { machine, bag, place }: CountRow,
): Finding {
  const name = bag === null ? `The bag of machine ${printable(machine, 60)}` : `Bag ${printable(bag, 60)}`;
  const there = changed.map((field) => `${WORDS[field]} ${tell(body, field)}`).join(', ');
  const here = changed.map((field) => `${WORDS[field]} ${tell(now, field)}`).join(', ');
  const message = `${name} is in the book with ${there} (entry ${entry}), and this sheet has ${here}. What the book has counts.`;
  const advice =
    'If the book is wrong, run this again with --correct and the reason; the first count stays readable beside it.';
  return makeFinding('duplicate-row', message, { ...place, machine, advice, expected: there, received: here });
}

function tell(body: CountBody, field: Field): string {
  const value = body[field];
  if (value === null) return 'not given';
  const isAmount = (AMOUNTS as readonly string[]).includes(field);
  return isAmount ? describeMoney(value as number, body.decimals, body.currency) : printable(String(value), 60);
}
