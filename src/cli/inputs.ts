import {
  type EarlierOffice,
  type FolderReading,
  loadOffice,
  type Office,
  type OfficeFiles,
  STANDARD_INPUT,
  takeFiles,
  type Workplace,
} from '../index.js';
import { UsageError } from './exit-status.js';
import { defaultMoney } from './money-options.js';
import type { CheckOptions, SharedOptions } from './option-shapes.js';
import type { Format } from './printer.js';
import type { Progress } from './progress.js';
import type { Terminal } from './terminal.js';

/** The form results are asked for in. */
export function formatOf({ json, csv }: Pick<SharedOptions, 'json' | 'csv'>): Format {
  if (json && csv) throw new UsageError('--json and --csv cannot be given together');
  return json ? 'json' : csv ? 'csv' : 'text';
}

/** Where the program's files are. */
export function workplaceOf({ cwd, stdin }: Terminal): Workplace {
  return { cwd, stdin };
}

/** Read the office's sheets as options name them; where they name none, what was said earlier holds. */
export function loadOfficeFiles(options: SharedOptions, terminal: Terminal, earlier?: EarlierOffice): Promise<Office> {
  const { machines, plan, capturesList, profiles } = options;
  const files: OfficeFiles = { machines, plan, capturesList, profiles };
  return loadOffice(files, defaultMoney(options).decimals, workplaceOf(terminal), earlier);
}

/** What options say of every capture. */
export function circumstancesOf(options: SharedOptions, { roster }: Office, { step }: Progress) {
  const { clockTolerance, receivedFromFileTime } = options;
  return {
    roster,
    isFileTimeReceived: receivedFromFileTime,
    onFile: step,
    ...(clockTolerance === undefined ? {} : { clockToleranceMinutes: clockTolerance }),
  };
}

/** What options say of every capture that is checked. */
export function checkCircumstances(options: CheckOptions, office: Office, progress: Progress) {
  return {
    ...circumstancesOf(options, office, progress),
    ...defaultMoney(options),
    strict: options.strict,
    saidMachine: options.machine ?? null,
    receivedAt: options.receivedAt ?? null,
  };
}

/** Take all captures into the accounts. */
export function takeCaptures(
  names: readonly string[],
  options: SharedOptions,
  office: Office,
  { terminal, progress, skip }: { terminal: Terminal; progress: Progress; skip: ReadonlySet<string> },
): Promise<FolderReading> {
  const circumstances = { ...circumstancesOf(options, office, progress), defaults: defaultMoney(options), skip };
  return takeFiles(names, circumstances, workplaceOf(terminal));
}

/** @throws UsageError when standard input is asked for more than once: it can be read only once */
export function refuseTwoInputs(names: readonly (string | undefined)[]): void {
  if (names.filter((name) => name === STANDARD_INPUT).length > 1) {
    throw new UsageError('standard input (-) can be named only once');
  }
}
