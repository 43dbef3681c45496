import { type Finding, makeFinding, printable } from '../../findings/index.js';
import { type CountRow, describeMoney } from '../../model/index.js';
import type { CountHistory } from './book-counts.js';
import type { CountBody } from './count-shapes.js';

const AMOUNTS = ['coins', 'bills', 'paidOut', 'filled', 'floatIssued'] as const;
const UNITLESS = ['route', 'driver', 'capture', 'currency', 'decimals'] as const;
/** What a row can say otherwise of a bag that it is known to be about. */
const FIELDS = [...AMOUNTS, ...UNITLESS] as const;
type Field = (typeof FIELDS)[number];

function isOtherMoney(a: CountBody, b: CountBody): boolean {
  const differs = <T>(x: T | null, y: T | null): boolean => x !== null && y !== null && x !== y;
  return differs(a.currency, b.currency) || differs(a.decimals, b.decimals);
}

/**
 * The bag as it would be with what a sheet says of it. A cell that the sheet leaves empty takes nothing back.
 *
 * @param isNamed - whether the row names the entry that it corrects: then it may say another machine, visit or label as well
 */
export function fillIn(old: CountBody, sheet: CountBody, isNamed = false): CountBody {
  // Amounts of two moneys are never put together: then the sheet's stand alone.
  const kept: readonly Field[] = isOtherMoney(old, sheet) ? UNITLESS : FIELDS;
  const said = Object.fromEntries(
    FIELDS.map((field) => [field, sheet[field] ?? (kept.includes(field) ? old[field] : null)]),
  );
  const place = isNamed ? placeOf(old, sheet) : {};
  const isCaptureNamed = sheet.capture !== null && sheet.capture !== old.capture;
  // Pieces that a corrected amount was not made of would contradict it.
  const isCounted = sheet.denominations.length > 0 || AMOUNTS.some((field) => said[field] !== old[field]);
  return {
    ...old,
    ...said,
    ...place,
    ...(isCaptureNamed ? { captureEntry: sheet.captureEntry } : {}),
    ...(isCounted ? { denominations: sheet.denominations } : {}),
    countedAt: sheet.countedAt ?? old.countedAt,
    note: sheet.note ?? old.note,
    place: sheet.place,
  };
}

/** Whose bag it is, and when: with another machine or day a capture that was named for the old one is none of its. */
function placeOf(old: CountBody, { machine, visitedAt, bag, capture, captureEntry }: CountBody): Partial<CountBody> {
  const isSameDay = visitedAt.date === old.visitedAt.date;
  const when = isSameDay && visitedAt.time === null ? old.visitedAt : visitedAt;
  const isMoved = machine !== old.machine || !isSameDay;
  return {
    machine,
    visitedAt: when,
    bag: bag ?? old.bag,
    ...(isMoved ? { capture, captureEntry } : {}),
  };
}

/** What a row says otherwise of a bag; notes and the time of counting decide nothing and are not compared. */
export function listChanged(old: CountBody, now: CountBody): readonly Field[] {
  return FIELDS.filter((field) => now[field] !== old[field]);
}

/** Whether two versions of a bag are the same in everything but where they stand and who entered them. */
export function isSameCount(a: CountBody, b: CountBody): boolean {
  const plain = ({ place: _, by: __, captureEntry: ___, denominations, ...rest }: CountBody): string =>
    JSON.stringify([Object.entries(rest).sort(([x], [y]) => (x < y ? -1 : 1)), denominations]);
  return plain(a) === plain(b);
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

/** A bag in words, at the beginning of a sentence. */
function nameBag({ machine, bag }: Pick<CountRow, 'machine' | 'bag'>): string {
  return bag === null ? `The bag of machine ${printable(machine, 60)}` : `Bag ${printable(bag, 60)}`;
}

/** The book has a bag otherwise than a row says, and the row does not correct it. */
export function sayDiffers(
  { entry }: Pick<CountHistory, 'entry'>,
  was: CountBody,
  now: CountBody,
  { machine, bag, place }: CountRow,
): Finding {
  const changed = listChanged(was, now);
  const there = changed.map((field) => `${WORDS[field]} ${tell(was, field)}`).join(', ');
  const here = changed.map((field) => `${WORDS[field]} ${tell(now, field)}`).join(', ');
  const message = `${nameBag({ machine, bag })} is in the book with ${there} (entry ${entry}), and this sheet has ${here}. What the book has counts.`;
  const advice =
    'If the book is wrong, run this again with --correct and the reason; the first count stays readable beside it.';
  return makeFinding('duplicate-row', message, { ...place, machine, advice, expected: there, received: here });
}

/** A row says what the book had once, and has no more. */
export function sayReplaced({ entry, kind }: CountHistory, { machine, bag, place }: CountRow): Finding {
  const isOut = kind === 'count-withdrawn';
  const what = isOut ? `was taken out by entry ${entry}` : `was corrected by entry ${entry}`;
  const message = `${nameBag({ machine, bag })} is in the book as this row has it, and ${what}. It is not entered again.`;
  const advice = isOut
    ? `To enter it again after all, correct that entry with --corrects ${entry}. A bag that is another one needs a label of its own.`
    : 'A bag that is another one needs a label of its own.';
  return makeFinding('duplicate-row', message, { ...place, machine, advice });
}

/** A new bag has the label of one of another machine. */
export function sayLabelTwice({ entry }: CountHistory, of: CountBody, { machine, bag, place }: CountRow): Finding {
  const message = `Bag ${printable(bag!, 60)} of that day is in the book for machine ${printable(of.machine, 60)} too (entry ${entry}). Both count.`;
  const advice = `If it was entered for the wrong machine, correct that entry with --corrects ${entry}, or take it out with --withdraw ${entry}.`;
  return makeFinding('duplicate-row', message, { ...place, machine, advice });
}

function tell(body: CountBody, field: Field): string {
  const value = body[field];
  if (value === null) return 'not given';
  const isAmount = (AMOUNTS as readonly string[]).includes(field);
  return isAmount ? describeMoney(value as number, body.decimals, body.currency) : printable(String(value), 60);
}
