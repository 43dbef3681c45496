import type { z } from 'zod';
import {
  buildIntervals,
  CASH_TABLE,
  findUnlistedCaptures,
  type Interval,
  intervalToJson,
  keysOfNumbers,
  keysOfSheetName,
  layIntervals,
  machineKey,
  SALES_TABLE,
  salesRows,
  tellStep,
} from '../index.js';
import { StatusKeeper } from './exit-status.js';
import { formatOf, loadOfficeFiles, refuseTwoInputs, takeCaptures } from './inputs.js';
import { intervalShape, readOptions } from './option-shapes.js';
import { collected, csvView, Printer, type View } from './printer.js';
import { Progress } from './progress.js';
import type { Terminal } from './terminal.js';

function viewOf({ table }: z.infer<typeof intervalShape>): View<Interval> {
  return {
    toJson: intervalToJson,
    csv: table === 'cash' ? csvView(CASH_TABLE, (interval: Interval) => [interval]) : csvView(SALES_TABLE, salesRows),
    text: (style) => collected((intervals, general) => layIntervals(intervals, general, style)),
  };
}

/** `interval`: what each machine sold, and what its cash did, between every two reads. */
export async function runInterval(
  names: readonly string[],
  raw: Record<string, unknown>,
  terminal: Terminal,
): Promise<number> {
  const options = readOptions(intervalShape, raw);
  const format = formatOf(options);
  refuseTwoInputs([...names, options.machines, options.plan, options.capturesList]);
  const progress = new Progress(terminal);
  const office = await loadOfficeFiles(options, terminal);
  const taken = await takeCaptures(names, options, office, { terminal, progress, skip: office.sheetPaths });
  const { intervals, findings } = buildIntervals(taken.reads, office.roster);
  const unlisted = findUnlistedCaptures(taken.reads, office.roster);
  const general = [...office.findings, ...taken.findings, ...findings, ...unlisted];
  const shown = intervals.filter((interval) => isOfMachine(interval, options.only));
  const status = new StatusKeeper(options.strict);
  status.add(general);
  const printer = new Printer(viewOf(options), { format, general, terminal, progress });
  for (const interval of shown) {
    status.add(tellStep(interval));
    await printer.add(interval);
  }
  await printer.end();
  return status.status;
}

/** Whether an interval is of the machine of that name: the roster's, or a number that the machine gives. */
export function isOfMachine({ to }: Interval, name: string | undefined): boolean {
  if (name === undefined) return true;
  const keys = [machineKey(to), ...keysOfNumbers(to.read.machine)];
  return keysOfSheetName(name).some((key) => keys.includes(key));
}
