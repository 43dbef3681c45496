import type { z } from 'zod';
import {
  buildIntervals,
  findUnstated,
  type LocationStatement,
  layStatements,
  STATEMENT_LINES_TABLE,
  STATEMENTS_TABLE,
  stateCommissions,
  statementLineRows,
  statementToJson,
} from '../index.js';
import { StatusKeeper, UsageError } from './exit-status.js';
import { formatOf, refuseTwoInputs } from './inputs.js';
import { readOptions, statementShape } from './option-shapes.js';
import { periodOf } from './period-options.js';
import { collected, csvView, Printer, type View } from './printer.js';
import { Progress } from './progress.js';
import { loadAccountingOffice, takeAllReads } from './take-all-reads.js';
import type { Terminal } from './terminal.js';

function viewOf({ table }: z.infer<typeof statementShape>): View<LocationStatement> {
  return {
    toJson: statementToJson,
    csv:
      table === 'machines'
        ? csvView(STATEMENT_LINES_TABLE, statementLineRows)
        : csvView(STATEMENTS_TABLE, (statement: LocationStatement) => [statement]),
    text: (style) => collected((statements, general) => layStatements(statements, general, style)),
  };
}

/** `statement`: what each location sold, the sales tax in it, and its commission with the base that it is taken of. */
export async function runStatement(raw: Record<string, unknown>, terminal: Terminal): Promise<number> {
  const options = readOptions(statementShape, raw);
  const format = formatOf(options);
  const period = periodOf(options);
  if (options.captures !== undefined && options.machines === undefined) {
    throw new UsageError('--machines: expected the roster of machines, which holds the rates');
  }
  refuseTwoInputs([...(options.captures ?? []), options.machines, options.plan, options.capturesList]);
  const progress = new Progress(terminal);
  const office = await loadAccountingOffice(options, terminal);
  const taken = await takeAllReads(options, { office, terminal, progress, skip: office.sheetPaths });
  const { intervals, findings } = buildIntervals(taken.reads, office.roster);
  const statements = stateCommissions(intervals, office.roster, period);
  const general = [...office.findings, ...findUnstated(taken.reads), ...taken.findings, ...findings];
  const status = new StatusKeeper(options.strict);
  status.add(general);
  const printer = new Printer(viewOf(options), { format, general, terminal, progress });
  for (const statement of statements) {
    status.add(statement.findings);
    await printer.add(statement);
  }
  await printer.end();
  return status.status;
}
