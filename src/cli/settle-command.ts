import type { z } from 'zod';
import type { BookRound, Recorded } from '../book/closing/index.js';
import {
  bookSettlementToJson,
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
import { settleFiles } from './settle-files.js';
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

/** Settlements of a book: what was sold is told as it is worked out now, for a closing keeps no intervals. */
function bookViewOf({ table }: SettleOptions): View<BookRound> {
  return {
    toJson: ({ settlement, closing }) => bookSettlementToJson(settlement, closing),
    csv:
      table === 'sales'
        ? csvView(SALES_TABLE, ({ worked }) => (worked === null ? [] : salesOf(worked)))
        : csvView(VISITS_TABLE, ({ settlement }) => visitRows(settlement)),
    text: (style) =>
      collected((rounds, general) => {
        const closings = new Map(rounds.map(({ settlement, closing }) => [settlement, closing]));
        return laySettlements([...closings.keys()], general, style, closings);
      }),
  };
}

/** `settle`: what should be in each bag, what was counted, over and short, by machine, driver and route. */
export async function runSettle(raw: Record<string, unknown>, terminal: Terminal): Promise<number> {
  const options = readOptions(settleShape, raw);
  if (options.book !== undefined) return runSettleBook(options, terminal);
  const { captures, counts } = options;
  if (options.close || options.by !== undefined || options.correct !== undefined)
    throw new UsageError('--close, --correct and --by need a book: name it with --book');
  if (captures === undefined) throw new UsageError('--captures or --book: where the captures are must be given');
  if (counts === undefined) throw new UsageError('--counts: the bags as counted must be given');
  const format = formatOf(options);
  const progress = new Progress(terminal);
  const { settlements, general } = await settleFiles(captures, options, { terminal, progress });
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
  const progress = new Progress(terminal);
  const printer = new Printer(bookViewOf(options), { format, general, terminal, progress });
  const print = async (): Promise<void> => {
    for (const round of rounds) {
      // What has to be done follows from how things stand now: an adjustment may have settled what was open.
      addStatus(status, round.worked ?? round.settlement);
      if (hasDifference(round)) status.raise(options.strict ? EXIT.faults : EXIT.doubts);
      await printer.add(round);
    }
    await printer.end();
  };
  try {
    await print();
  } finally {
    // Whatever becomes of the report, on a disk that is full: this is recorded.
    if (recorded !== null) terminal.stderr.write(`coilbook: ${tellRecorded(recorded)}\n`);
  }
  return status.status;
}

/** Whether something came after the closing, or is carried into it, that a person has to know of. */
function hasDifference({ closing: { changes, carried } }: BookRound): boolean {
  return changes !== null || carried.some(({ overShort }) => overShort.total !== 0);
}

function addStatus(status: StatusKeeper, { findings, visits }: Settlement): void {
  status.add(findings);
  for (const visit of visits) {
    status.add(visit.findings);
    // A bag that could not be settled: somebody has to act before the round can be closed.
    if (visit.state === 'unsettled' || visit.state === 'unread') status.raise(EXIT.faults);
  }
}

/** What was recorded, beside the report, which says what the book has now. */
function tellRecorded({ counts, corrections, closed, adjustments, leftOpen }: Recorded): string {
  const parts = [
    [counts, 'count', 'counts'],
    [corrections, 'correction', 'corrections'],
    [closed, 'settlement closed', 'settlements closed'],
    [adjustments, 'adjustment', 'adjustments'],
  ] as const;
  const said = parts
    .filter(([number]) => number > 0)
    .map(([number, one, many]) => `${number} ${number === 1 ? one : many}`);
  const recorded = said.length === 0 ? 'nothing new to record' : `recorded ${said.join(', ')}`;
  if (leftOpen === 0) return recorded;
  const rounds = leftOpen === 1 ? '1 round without any bag stays' : `${leftOpen} rounds without any bag stay`;
  return `${recorded}; ${rounds} open: close it with --route once its counts are in`;
}
