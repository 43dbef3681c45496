import type { z } from 'zod';
import {
  type CaptureCheck,
  CHECK_TABLE,
  ChecksReport,
  checkFiles,
  checkRows,
  checkToJson,
  LastGoodReads,
} from '../index.js';
import { StatusKeeper } from './exit-status.js';
import { circumstancesOf, formatOf, loadOfficeFiles, refuseTwoInputs, workplaceOf } from './inputs.js';
import { defaultMoney } from './money-options.js';
import { checkShape, readOptions } from './option-shapes.js';
import { csvView, Printer, type View } from './printer.js';
import { Progress } from './progress.js';
import type { Terminal } from './terminal.js';

function viewOf({ all }: z.infer<typeof checkShape>): View<CaptureCheck> {
  return {
    toJson: checkToJson,
    csv: csvView(CHECK_TABLE, checkRows),
    text: (style) => new ChecksReport(style, all),
  };
}

/** `check`: is each capture whole, of the right machine, and fit for accounts? */
export async function runCheck(
  names: readonly string[],
  raw: Record<string, unknown>,
  terminal: Terminal,
): Promise<number> {
  const options = readOptions(checkShape, raw);
  const format = formatOf(options);
  refuseTwoInputs([...names, options.machines, options.plan, options.capturesList]);
  const office = await loadOfficeFiles(options, terminal);
  const progress = new Progress(terminal);
  const status = new StatusKeeper(options.strict);
  const printer = new Printer(viewOf(options), { format, general: office.findings, terminal, progress });
  status.add(office.findings);
  const circumstances = {
    ...circumstancesOf(options, office, progress),
    ...defaultMoney(options),
    strict: options.strict,
    lastGood: new LastGoodReads(),
    saidMachine: options.machine ?? null,
    receivedAt: options.receivedAt ?? null,
    skip: office.sheetPaths,
  };
  for await (const check of checkFiles(names, circumstances, workplaceOf(terminal))) {
    status.add(check.findings);
    await printer.add(check);
  }
  await printer.end();
  return status.status;
}
