import { checkFiles, FirstArrivals, LastGoodReads } from '../index.js';
import { checksView } from './checks-view.js';
import { StatusKeeper, UsageError } from './exit-status.js';
import { checkCircumstances, formatOf, loadOfficeFiles, refuseTwoInputs, workplaceOf } from './inputs.js';
import { runInstall } from './install-command.js';
import { type CheckOptions, checkShape, readOptions } from './option-shapes.js';
import { Printer } from './printer.js';
import { Progress } from './progress.js';
import type { Terminal } from './terminal.js';

/** `check`: is each capture whole, of the right machine, and fit for accounts? */
export async function runCheck(
  names: readonly string[],
  raw: Record<string, unknown>,
  terminal: Terminal,
): Promise<number> {
  const options = readOptions(checkShape, raw);
  if (options.install) return runInstall(names, options, terminal);
  refuseInstallOptions(options);
  const format = formatOf(options);
  refuseTwoInputs([...names, options.machines, options.plan, options.capturesList]);
  const office = await loadOfficeFiles(options, terminal);
  const progress = new Progress(terminal);
  const status = new StatusKeeper(options.strict);
  status.add(office.findings);
  const printer = new Printer(checksView(options.all), { format, general: office.findings, terminal, progress });
  const circumstances = {
    ...checkCircumstances(options, office, progress),
    lastGood: new LastGoodReads(),
    arrivals: new FirstArrivals(),
    skip: office.sheetPaths,
  };
  for await (const check of checkFiles(names, circumstances, workplaceOf(terminal))) {
    status.add(check.findings);
    await printer.add(check);
  }
  await printer.end();
  return status.status;
}

function refuseInstallOptions({ second, column, service }: CheckOptions): void {
  if (second !== undefined || column !== undefined || service) {
    throw new UsageError('--second, --column and --service need --install');
  }
}
