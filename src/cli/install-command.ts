import {
  checkInstall,
  INSTALL_TABLE,
  type Installation,
  type InstallReading,
  installRows,
  installToJson,
  layInstallation,
  readInstallCapture,
} from '../index.js';
import { checksView } from './checks-view.js';
import { EXIT, StatusKeeper, UsageError } from './exit-status.js';
import { checkCircumstances, formatOf, loadOfficeFiles, refuseTwoInputs, workplaceOf } from './inputs.js';
import type { CheckOptions } from './option-shapes.js';
import { collected, csvView, Printer, type PrinterSetting, type View } from './printer.js';
import { Progress } from './progress.js';
import type { Terminal } from './terminal.js';

const VIEW: View<Installation> = {
  toJson: installToJson,
  csv: csvView(INSTALL_TABLE, installRows),
  text: (style) =>
    collected(([installation], general) =>
      installation === undefined ? [] : layInstallation(installation, general, style),
    ),
};

/** `check --install`: does everything that should report do so, and is a vend counted? */
export async function runInstall(names: readonly string[], options: CheckOptions, terminal: Terminal): Promise<number> {
  const [file, ...others] = names;
  if (others.length > 0) throw new UsageError('--install takes one capture; name the one after the vend by --second');
  const format = formatOf(options);
  refuseTwoInputs([file, options.second, options.machines, options.plan, options.capturesList]);
  const office = await loadOfficeFiles(options, terminal);
  const progress = new Progress(terminal);
  const status = new StatusKeeper(options.strict);
  status.add(office.findings);
  const circumstances = checkCircumstances(options, office, progress);
  const workplace = workplaceOf(terminal);
  const setting = { format, general: office.findings, terminal, progress };
  const first = await readInstallCapture(file!, circumstances, workplace);
  const second =
    options.second === undefined ? null : await readInstallCapture(options.second, circumstances, workplace);
  if (first.capture === null || second?.capture === null) return printUnread([first, second], setting, status);
  const reason = office.roster.listed(file!)?.reason ?? null;
  const isService = options.service || (reason === null ? null : reason === 'service');
  const check = checkInstall(first.capture, second?.capture ?? null, { column: options.column ?? null, isService });
  const isOpen = check.items.some(({ state }) => state === 'not-known');
  if (!check.passed || (isOpen && options.strict)) status.raise(EXIT.faults);
  else if (isOpen) status.raise(EXIT.doubts);
  const printer = new Printer(VIEW, setting);
  await printer.add({ file: file!, second: options.second ?? null, check });
  await printer.end();
  return status.status;
}

/** There is no read to check an installation by: the check of the file says why. */
async function printUnread(
  readings: readonly (InstallReading | null)[],
  setting: PrinterSetting,
  status: StatusKeeper,
): Promise<number> {
  const printer = new Printer(checksView(true), setting);
  for (const reading of readings) {
    if (reading === null || reading.capture !== null) continue;
    status.add(reading.check.findings);
    await printer.add({ ...reading.check, firstRead: 0 });
  }
  await printer.end();
  return status.status;
}
