import type { z } from 'zod';
import {
  buildIntervals,
  DEPOSITS_TABLE,
  type DepositMatches,
  type DepositOptions,
  depositsToJson,
  type Finding,
  findMachineOfDevice,
  findRefusedDeposits,
  findUnknownRefused,
  layDeposits,
  limitDeposits,
  listRefusals,
  loadSheet,
  matchDeposits,
  readDeposits,
  realPaths,
} from '../index.js';
import { EXIT, StatusKeeper } from './exit-status.js';
import { formatOf, refuseTwoInputs, workplaceOf } from './inputs.js';
import { depositsShape, readOptions } from './option-shapes.js';
import { periodOf, refuseBackward } from './period-options.js';
import { collected, csvView, Printer, type View } from './printer.js';
import { Progress } from './progress.js';
import { loadAccountingOffice, takeAllReads } from './take-all-reads.js';
import type { Terminal } from './terminal.js';

type Options = z.infer<typeof depositsShape>;

const VIEW: View<DepositMatches> = {
  toJson: depositsToJson,
  csv: csvView(DEPOSITS_TABLE, ({ matches }: DepositMatches) => matches),
  text: (style) => collected(([compared = null], general) => layDeposits(compared, general, style)),
};

/** `deposits`: what was sold by card against what the processor paid out, machine by machine. */
export async function runDeposits(raw: Record<string, unknown>, terminal: Terminal): Promise<number> {
  const options = readOptions(depositsShape, raw);
  const format = formatOf(options);
  const period = periodOf(options);
  refuseBackward(options.completeFrom, options.completeTo, ['--complete-from', '--complete-to']);
  const progress = new Progress(terminal);
  const { compared, general, hasReads } = await compareFiles(options, terminal, progress);
  const shown = compared === null ? null : limitDeposits(compared, period);
  const status = new StatusKeeper(options.strict);
  status.add(general);
  if (!hasReads) status.raise(EXIT.input);
  const printer = new Printer(VIEW, { format, general, terminal, progress });
  if (shown !== null) {
    for (const { findings } of shown.matches) status.add(findings);
    await printer.add(shown);
  }
  await printer.end();
  return status.status;
}

/** Read everything and compare; null without deposits or captures, since then all sales or deposits would look wrong. */
async function compareFiles(
  options: Options,
  terminal: Terminal,
  progress: Progress,
): Promise<{ compared: DepositMatches | null; general: readonly Finding[]; hasReads: boolean }> {
  refuseTwoInputs([
    ...(options.captures ?? []),
    options.deposits,
    options.machines,
    options.plan,
    options.capturesList,
  ]);
  const workplace = workplaceOf(terminal);
  const office = await loadAccountingOffice(options, terminal);
  const skip = new Set([...office.sheetPaths, ...(await realPaths([options.deposits], workplace))]);
  const taken = await takeAllReads(options, { office, terminal, progress, skip });
  const machineOfDevice = findMachineOfDevice(taken.reads);
  const { roster, money } = office;
  const sheet = await loadSheet(options.deposits, (file) => readDeposits(file, money, machineOfDevice), workplace);
  const { intervals, findings } = buildIntervals(taken.reads, roster);
  const unknown = findUnknownRefused(listRefusals(sheet), roster);
  const general = [...office.findings, ...unknown, ...sheet.findings, ...taken.findings, ...findings];
  const isSheetUnused = sheet.findings.some(({ severity }) => severity === 'fault');
  const hasReads = taken.reads.length > 0;
  if (isSheetUnused || !hasReads) return { compared: null, general, hasReads };
  const compared = matchDeposits(intervals, sheet.rows, roster, matchOptions(options));
  return { compared, general: [...findRefusedDeposits(sheet, compared), ...general], hasReads };
}

function matchOptions({ windowDays, dayEndsAt, completeFrom, completeTo }: Options): DepositOptions {
  return {
    ...(windowDays === undefined ? {} : { windowDays }),
    ...(dayEndsAt === undefined ? {} : { dayEndsAt }),
    ...(completeFrom === undefined ? {} : { completeFrom }),
    ...(completeTo === undefined ? {} : { completeTo }),
  };
}
