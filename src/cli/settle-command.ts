import type { z } from 'zod';
import type { BookRound } from '../book/closing/index.js';
import {
  BOOK_VISITS_TABLE,
  bookSettlementToJson,
  hangText,
  laySettlements,
  SALES_TABLE,
  type Settlement,
  salesRows,
  settlementToJson,
  VISITS_TABLE,
  visitRows,
} from '../index.js';
import { EXIT, StatusKeeper, UsageError } from './exit-status.js';
import { formatOf } from './inputs.js';
import { readOptions, type SettleOptions, settleShape } from './option-shapes.js';
import { collected, csvView, Printer, type View } from './printer.js';
import { Progress } from './progress.js';
import { sayNotDone, tellRecorded } from './recorded-words.js';
import { settleFromFiles } from './settle-files.js';
import { settleFromBook } from './settle-from-book.js';
import type { Terminal } from './terminal.js';

function viewOf({ table }: z.infer<typeof settleShape>): View<Settlement> {
  return {
    toJson: settlementToJson,
    csv: table === 'sales' ? csvView(SALES_TABLE, salesOf) : csvView(VISITS_TABLE, visitRows),
    text: (style) => collected((settlements, general) => laySettlements(settlements, general, style)),
  };
}

function salesOf({ visits }: Settlement) {
  return visits.flatMap(({ interval }) => (interval === null ? [] : salesRows(interval)));
}

/** Settlements of a book: as they stand, with what the book says of how they were closed and what came after. */
function bookViewOf({ table }: SettleOptions, answer: readonly string[]): View<BookRound> {
  return {
    toJson: ({ settlement, inBook }) => bookSettlementToJson(settlement, inBook),
    csv:
      table === 'sales'
        ? csvView(SALES_TABLE, ({ settlement }) => salesOf(settlement))
        : csvView(BOOK_VISITS_TABLE, ({ settlement, inBook, visits }) =>
            visits.map((pair) => ({ ...pair, settlement, inBook })),
          ),
    text: (style) =>
      collected((rounds, general) => {
        const facts = new Map(rounds.map(({ settlement, inBook }) => [settlement, inBook]));
        const lines = answer.flatMap((line) => hangText('', line)).map(style.bold);
        const report = laySettlements([...facts.keys()], general, style, facts);
        return lines.length === 0 ? report : [...lines, '', ...report];
      }),
  };
}

/** `settle`: what should be in each bag, what was counted, over and short, by machine, driver and route. */
export async function runSettle(raw: Record<string, unknown>, terminal: Terminal): Promise<number> {
  const options = readOptions(settleShape, raw);
  if (options.book !== undefined) return runSettleBook(options, terminal);
  const { captures, counts, close, record, by, correct, corrects, withdraw, reason, closeAnyway } = options;
  if (close || record || [by, correct, corrects, withdraw, reason, closeAnyway].some((one) => one !== undefined))
    throw new UsageError(
      '--record, --close, --correct, --corrects, --withdraw and --by need a book: name it with --book',
    );
  if (captures === undefined) throw new UsageError('--captures or --book: where the captures are must be given');
  if (counts === undefined) throw new UsageError('--counts: the bags as counted must be given');
  const format = formatOf(options);
  const progress = new Progress(terminal);
  const { settlements, findings: general } = await settleFromFiles(
    captures,
    { ...options, counts },
    { terminal, progress },
  );
  const status = new StatusKeeper(options.strict);
  status.add(general);
  const printer = new Printer(viewOf(options), { format, general, terminal, progress });
  for (const settlement of settlements) {
    addStatus(status, settlement);
    await printer.add(settlement);
  }
  await printer.end();
  return status.status;
}

async function runSettleBook(options: SettleOptions, terminal: Terminal): Promise<number> {
  const format = formatOf(options);
  const { rounds, general, recorded } = await settleFromBook(options, terminal);
  const status = new StatusKeeper(options.strict);
  status.add(general);
  const answer = recorded === null ? [] : sayNotDone(recorded);
  if (answer.length > 0) status.raise(EXIT.faults);
  const progress = new Progress(terminal);
  const printer = new Printer(bookViewOf(options, answer), { format, general, terminal, progress });
  const print = async (): Promise<void> => {
    for (const round of rounds) {
      addStatus(status, round.settlement);
      if (hasDifference(round)) status.raise(options.strict ? EXIT.faults : EXIT.doubts);
      await printer.add(round);
    }
    await printer.end();
  };
  try {
    await print();
  } finally {
    // A person reads it first in the report; a program reads what it asked for there.
    if (format !== 'text') for (const line of answer) terminal.stderr.write(`coilbook: ${line}\n`);
    // Whatever becomes of the report, on a disk that is full: this is recorded.
    if (recorded !== null) terminal.stderr.write(`coilbook: ${tellRecorded(recorded)}\n`);
  }
  return status.status;
}

/** Whether something is not recorded yet, or is carried into a round, that a person has to know of. */
function hasDifference({ inBook: { pending, drivers } }: BookRound): boolean {
  return pending.length > 0 || drivers.some(({ carried }) => carried.some(({ overShort }) => overShort !== 0));
}

function addStatus(status: StatusKeeper, { findings, visits }: Settlement): void {
  status.add(findings);
  for (const visit of visits) {
    status.add(visit.findings);
    // A bag that could not be settled: somebody has to act before the round can be closed.
    if (visit.state === 'unsettled' || visit.state === 'unread') status.raise(EXIT.faults);
  }
}
