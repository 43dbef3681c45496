import {
  type Finding,
  findUnknownRefused,
  loadSheet,
  readCounts,
  realPaths,
  type Settlement,
  settleRound,
} from '../index.js';
import { loadOfficeFiles, refuseTwoInputs, takeCaptures, workplaceOf } from './inputs.js';
import { readTolerance } from './money-options.js';
import type { SettlingOptions } from './option-shapes.js';
import type { Progress } from './progress.js';
import type { Terminal } from './terminal.js';

/** Read everything a round is settled from, as options name it, and settle it. */
export async function settleFiles(
  captures: readonly string[],
  options: SettlingOptions,
  { terminal, progress }: { terminal: Terminal; progress: Progress },
): Promise<{ settlements: readonly Settlement[]; general: readonly Finding[] }> {
  refuseTwoInputs([...captures, options.counts, options.machines, options.plan, options.capturesList]);
  const workplace = workplaceOf(terminal);
  const office = await loadOfficeFiles(options, terminal);
  const tolerance = readTolerance(options, office.roster.books.machines);
  const counts = await loadSheet(options.counts, (sheet) => readCounts(sheet, office.money), workplace);
  const skip = new Set([...office.sheetPaths, ...(await realPaths([options.counts], workplace))]);
  const taken = await takeCaptures(captures, options, office, { terminal, progress, skip });
  const { settlements, findings } = settleRound(
    {
      reads: taken.reads,
      counts: counts.rows,
      roster: office.roster,
      countFindings: counts.findings,
      countMoney: office.money,
    },
    {
      tolerance,
      ignoreHandMoves: options.ignoreHandMoves,
      ...(options.route === undefined ? {} : { route: options.route }),
      ...(options.day === undefined ? {} : { day: options.day }),
      ...(options.window === undefined ? {} : { windowMinutes: options.window }),
    },
  );
  const unknown = findUnknownRefused(counts.findings, office.roster);
  return { settlements, general: [...office.findings, ...unknown, ...counts.findings, ...taken.findings, ...findings] };
}
