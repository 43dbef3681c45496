import { findUnknownMachines } from '../../captures/index.js';
import type { Finding } from '../../findings/index.js';
import {
  decimalsFromRoster,
  Roster,
  readCapturesList,
  readMachines,
  readPlan,
  type Sheet,
  type SheetReading,
} from '../../sheets/index.js';
import { sayNotRead } from './check-sent-file.js';
import { FileProblem, readBytes } from './file-chunks.js';
import type { SentFile, SheetLine } from './messages.js';

/** The kinds of sheets that help to check captures. */
export type UsedSheet = NonNullable<SheetLine['kind']>;

/** What the office knows, read from its sheets. */
export interface OfficeBook {
  readonly roster: Roster;
  /** In the order in which the `check` command says them. */
  readonly findings: readonly Finding[];
  readonly sheets: readonly SheetLine[];
}

/** Read the sheets there are, one of a kind at most. What is wrong with one is said, and the others still count. */
export async function readOffice(sheets: ReadonlyMap<UsedSheet, SentFile>): Promise<OfficeBook> {
  const machines = await readOne(sheets.get('machines'), readMachines);
  const money = decimalsFromRoster(machines.rows, null);
  const plan = await readOne(sheets.get('plan'), (sheet) => readPlan(sheet, money));
  const capturesList = await readOne(sheets.get('captures list'), readCapturesList);
  const roster = new Roster({ machines: machines.rows, plan: plan.rows, capturesList: capturesList.rows });
  const rows = { machines: machines.rows.length, plan: plan.rows.length, 'captures list': capturesList.rows.length };
  return {
    roster,
    findings: [...machines.findings, ...plan.findings, ...capturesList.findings, ...findUnknownMachines(roster)],
    sheets: [...sheets].map(([kind, { path }]) => ({ file: path, kind, rows: rows[kind] })),
  };
}

async function readOne<Row>(
  sent: SentFile | undefined,
  read: (sheet: Sheet) => SheetReading<Row>,
): Promise<SheetReading<Row>> {
  if (sent === undefined) return { rows: [], findings: [] };
  const content = await readBytes(sent.file).catch((problem: FileProblem) => problem);
  if (content instanceof FileProblem) return { rows: [], findings: [sayNotRead(sent.path, content.message)] };
  return read({ file: sent.path, content });
}
