import type { z } from 'zod';
import {
  laySettlements,
  SALES_TABLE,
  type Settlement,
  salesRows,
  settlementToJson,
  VISITS_TABLE,
  visitRows,
} from '../index.js';
import { EXIT, StatusKeeper } from './exit-status.js';
import { formatOf } from './inputs.js';
import { readOptions, settleShape } from './option-shapes.js';
import { collected, csvView, Printer, type View } from './printer.js';
import { Progress } from './progress.js';
import { settleFiles } from './settle-files.js';
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

/** `settle`: what should be in each bag, what was counted, over and short, by machine, driver and route. */
export async function runSettle(raw: Record<string, unknown>, terminal: Terminal): Promise<number> {
  const options = readOptions(settleShape, raw);
  const format = formatOf(options);
  const progress = new Progress(terminal);
  const { settlements, general } = await settleFiles(options.captures, options, { terminal, progress });
  const status = new StatusKeeper(options.strict);
  status.add(general);
  const printer = new Printer(viewOf(options), { format, general, terminal, progress });
  for (const settlement of settlements) {
    status.add(settlement.findings);
    for (const visit of settlement.visits) {
      status.add(visit.findings);
      // A bag that could not be settled: somebody has to act before the round can be closed.
      if (visit.state === 'unsettled' || visit.state === 'unread') status.raise(EXIT.faults);
    }
    await printer.add(settlement);
  }
  await printer.end();
  return status.status;
}
