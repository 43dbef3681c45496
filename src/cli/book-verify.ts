import {
  BookError,
  type BookHead,
  type BookStore,
  type BookVerificationJson,
  judgeBook,
  judgeUnopened,
} from '../book/index.js';
import { hangText, plural, printable, Roster, type Style, writeJson } from '../index.js';
import { pushAll } from '../model/index.js';
import { bookVerifyShape } from './book-option-shapes.js';
import { EXIT } from './exit-status.js';
import { notedHead } from './noted-head.js';
import { withBook } from './open-book.js';
import { readOptions } from './option-shapes.js';
import { printLines } from './print-lines.js';
import { styleFor } from './printer.js';
import { Progress } from './progress.js';
import { putBack } from './put-back.js';
import type { Terminal } from './terminal.js';

const STATUS = { whole: EXIT.ok, doubtful: EXIT.doubts, broken: EXIT.faults } as const;

/** `book verify`: is everything in the book as it was recorded, and if not, from which entry on? */
export async function runBookVerify(raw: Record<string, unknown>, terminal: Terminal): Promise<number> {
  const options = readOptions(bookVerifyShape, raw);
  const noted = notedHead(options);
  const found = await verify(options, noted, terminal);
  const isPutBack = options.putBack && found.matching !== null && found.matching.differences.length > 0;
  if (isPutBack) await putBack(options.book, terminal);
  const verified = isPutBack ? await verify(options, noted, terminal) : found;
  await printLines(options.json ? [writeJson(verified)] : layVerification(verified, styleFor(terminal)), terminal);
  return STATUS[verified.verdict];
}

async function verify(
  { book: file, deep }: { readonly book: string; readonly deep: boolean },
  noted: BookHead | null,
  terminal: Terminal,
): Promise<BookVerificationJson> {
  const progress = new Progress(terminal);
  const onProgress = (done: number, all: number): void => progress.show(`${done} of ${all} entries`);
  try {
    const options = { onProgress, ...(noted === null ? {} : { noted }) };
    return await withBook({ book: file, isReadOnly: true }, terminal, async (book) => {
      const judged = await judgeBook(book, options);
      return deep && judged.fault === null ? { ...judged, ...(await judgeKept(book, judged)) } : judged;
    });
  } catch (error) {
    const { cause } = error as Error;
    if (!(cause instanceof BookError) || cause.kind !== 'corrupted') throw error;
    return judgeUnopened(cause.message, noted);
  } finally {
    progress.clear();
  }
}

/** Hold what is kept of the captures against what they give; where it differs, the book is no longer called whole. */
async function judgeKept(
  book: BookStore,
  { verdict, advice }: BookVerificationJson,
): Promise<Pick<BookVerificationJson, 'verdict' | 'advice' | 'workedOut'>> {
  const { verifyWorkedOut } = await import('../book/run/index.js');
  const { machines, stale, differences } = await verifyWorkedOut(book, new Roster());
  const workedOut = { machines, stale, differences: [...differences] };
  return differences.length === 0
    ? { verdict, advice, workedOut }
    : { verdict: 'doubtful', advice: advice ?? KEPT_ADVICE, workedOut };
}

const KEPT_ADVICE =
  'What was recorded is as it was; what was worked out from it was changed, or made by other rules. Run `coilbook day` ' +
  'again with the same sheets: what does not fit is worked out anew. Find out who worked on the file.';

/** What came of verifying a book, for a person: the answer first, then what it rests on, then what to do. */
export function layVerification(verified: BookVerificationJson, style: Style): string[] {
  const { head, fault, missingGuards, alteredGuards, unknownGuards, advice } = verified;
  const lines = hangText('', answer(verified)).map((line) => style.bold(line));
  lines.push('');
  if (fault !== null && fault.entry !== null && fault.entryKind !== null && fault.of !== null) {
    pushAll(lines, hangText('  of          ', `${fault.entryKind}: ${printable(fault.of, 300)}`));
  }
  if (fault !== null) lines.push(`  fits up to  ${head.size === 0 ? 'no entry' : `entry ${head.size - 1}`}`);
  lines.push(`  size        ${head.size}`, `  root        ${head.root}`);
  pushAll(lines, layNames('  guards gone ', missingGuards));
  pushAll(lines, layNames('  altered     ', alteredGuards));
  pushAll(lines, layNames('  added       ', unknownGuards));
  if (verified.matching !== null) pushAll(lines, layMatching(verified.matching));
  if (verified.workedOut !== null) pushAll(lines, layWorkedOut(verified.workedOut));
  if (advice !== null) pushAll(lines, ['', ...hangText('', advice)]);
  if (fault === null && verified.noted === null) pushAll(lines, ['', ...hangText('', NOT_HELD)]);
  return lines;
}

/** Which reads belong elsewhere by what entries say; nothing where all do where they are kept. */
function layMatching({ before, differences }: NonNullable<BookVerificationJson['matching']>): string[] {
  const named = differences.slice(0, 10).map(({ entry, number, what, kept, told }) => {
    const say = (value: string | null): string => (value === null ? 'none' : printable(value, 60));
    return `read ${number} of entry ${entry}: ${MATCHED_BY[what]} ${say(kept)}, entries say ${say(told)}`;
  });
  const rest = differences.length - named.length;
  const more = rest === 0 ? [] : [`and ${rest} more`];
  const old =
    before === null ? [] : [`cannot be shown for files taken in before entry ${before}, by an earlier version`];
  return [...named, ...more, ...old].flatMap((text, i) =>
    hangText(i === 0 ? '  belongs to  ' : '              ', text),
  );
}

const MATCHED_BY = {
  machine: 'machine',
  'received-at': 'received at',
  reason: 'reason',
  bag: 'bag',
  time: 'time',
} as const;

function layWorkedOut({ machines, stale, differences }: NonNullable<BookVerificationJson['workedOut']>): string[] {
  const left = stale === 0 ? '' : `; ${stale} not worked out since more came in`;
  const judged =
    differences.length === 0
      ? 'everything as the captures give it'
      : `${plural(differences.length, 'figure')} not as the captures give ${differences.length === 1 ? 'it' : 'them'}`;
  const first = `${plural(machines, 'machine')}, ${judged}${left}`;
  const named = differences.slice(0, 10).map(({ machine, entry, number, what }) => {
    const words = { read: 'what is kept of read', step: 'the step to read', 'surplus-step': 'a step too many to read' };
    return `${printable(machine, 60)}: ${words[what]} ${number} of entry ${entry}`;
  });
  return [first, ...named].flatMap((text, i) => hangText(i === 0 ? '  worked out  ' : '              ', text));
}

function layNames(label: string, names: readonly string[]): string[] {
  return names.length === 0 ? [] : hangText(label, names.map((name) => printable(name)).join(', '));
}

const NOT_HELD =
  'It was held against itself only: a book made anew from end to end would be whole too. With --size and --root, as ' +
  '`coilbook book head` gave them before, it is shown that it is still the same book.';

function answer({ verdict, head: { size }, noted, fault, matching, workedOut }: BookVerificationJson): string {
  if (fault !== null) return `The book is not whole. ${printable(fault.message, 500)}`;
  const entries =
    size === 0 ? 'it has no entries' : `${size} ${size === 1 ? 'entry' : 'entries'}, with all files and reads`;
  const same = noted === null ? '' : noted.size === size ? ', as noted' : `, the first ${noted.size} as noted`;
  if (verdict === 'whole') return `The book is whole: ${entries}${same}.`;
  const moved = new Set((matching?.differences ?? []).map(({ entry, number }) => `${entry}/${number}`)).size;
  if (moved > 0) {
    const reads = `${plural(moved, 'read')} ${moved === 1 ? 'is' : 'are'}`;
    return `What was recorded fits: ${entries}${same}. But ${reads} kept as of another machine, time or visit than entries say.`;
  }
  return workedOut !== null && workedOut.differences.length > 0
    ? `What was recorded fits: ${entries}${same}. But what was worked out from it is not what the captures give.`
    : `The book fits: ${entries}${same}. But the guards that keep it from being changed are not as they were made.`;
}
