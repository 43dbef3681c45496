import { createHash } from 'node:crypto';
import { realpath } from 'node:fs/promises';
import { findUnknownMachines } from '../captures/index.js';
import type { Finding } from '../findings/index.js';
import {
  decimalsFromRoster,
  type MoneyRules,
  type OfficeBooks,
  Roster,
  readCapturesList,
  readMachines,
  readPlan,
  type Sheet,
  type SheetReading,
} from '../sheets/index.js';
import { onDisk } from './byte-name.js';
import { readProfiles } from './read-profiles.js';
import { readWholeFile } from './read-whole-file.js';
import { pathOf, STANDARD_INPUT, type Workplace } from './workplace.js';

/** The office's files, as the user named them; every one may be missing. */
export interface OfficeFiles {
  readonly machines?: string | undefined;
  readonly plan?: string | undefined;
  readonly capturesList?: string | undefined;
  /** JSON files, or folders of them. */
  readonly profiles?: readonly string[] | undefined;
}

/** A sheet that was read. */
export interface SheetSource {
  readonly of: 'machines' | 'captures list';
  readonly file: string;
  readonly sha256: string;
}

/** What the office knows, read from its files. */
export interface Office {
  readonly roster: Roster;
  /** What was given now, without what was said earlier. */
  readonly given: Roster;
  /** For other sheets with amounts, such as the counts. */
  readonly money: MoneyRules;
  readonly findings: readonly Finding[];
  /** The roster and the captures list as they were read, each with the SHA-256 of its bytes, lower-case hex. */
  readonly sources: readonly SheetSource[];
  /** Real paths of the sheets: a folder of captures may hold them too. */
  readonly sheetPaths: ReadonlySet<string>;
}

/** What the office said before, such as a book remembers it. */
export type EarlierOffice = Pick<OfficeBooks, 'machines' | 'plan' | 'profiles'>;

const NOTHING_BEFORE: EarlierOffice = { machines: [], plan: [], profiles: [] };

/**
 * Read the office's sheets and profiles. What is wrong with one is said in the findings, and the others still count.
 *
 * @param defaultDecimals - decimals of amounts of machines of which nothing is known; null refuses them
 * @param earlier - what holds where nothing is given now
 */
export async function loadOffice(
  files: OfficeFiles,
  defaultDecimals: number | null,
  workplace: Workplace,
  earlier: EarlierOffice = NOTHING_BEFORE,
): Promise<Office> {
  const sources: SheetSource[] = [];
  const noting =
    <Row>(of: SheetSource['of'], read: (sheet: Sheet) => SheetReading<Row>) =>
    (sheet: Sheet): SheetReading<Row> => {
      const { file, content } = sheet;
      sources.push({ of, file, sha256: createHash('sha256').update(content).digest('hex') });
      return read(sheet);
    };
  const machines = await loadSheet(files.machines, noting('machines', readMachines), workplace);
  const known = machines.rows.length > 0 ? machines.rows : earlier.machines;
  const money = decimalsFromRoster(known, defaultDecimals);
  const plan = await loadSheet(files.plan, (sheet) => readPlan(sheet, money), workplace);
  const capturesList = await loadSheet(files.capturesList, noting('captures list', readCapturesList), workplace);
  const { profiles, findings } = await readProfiles(files.profiles ?? [], workplace);
  const given = { machines: machines.rows, plan: plan.rows, capturesList: capturesList.rows, profiles };
  return {
    roster: new Roster({
      ...given,
      machines: known,
      plan: plan.rows.length > 0 ? plan.rows : earlier.plan,
      profiles: profiles.length > 0 ? profiles : earlier.profiles,
    }),
    given: new Roster(given),
    money,
    findings: [
      ...machines.findings,
      ...plan.findings,
      ...capturesList.findings,
      ...findings,
      ...findUnknownMachines(new Roster({ ...given, machines: known })),
    ],
    sources,
    sheetPaths: await realPaths([files.machines, files.plan, files.capturesList], workplace),
  };
}

/** Read one sheet; one that was not asked for has no rows, one that can not be read a finding. */
export async function loadSheet<Row>(
  file: string | undefined,
  read: (sheet: Sheet) => SheetReading<Row>,
  workplace: Workplace,
): Promise<SheetReading<Row>> {
  if (file === undefined) return { rows: [], findings: [] };
  const { content, problem } = await readWholeFile(file, workplace);
  return problem === null ? read({ file, content }) : { rows: [], findings: [problem] };
}

/** The real paths of those files that are there. */
export async function realPaths(
  files: readonly (string | undefined)[],
  workplace: Workplace,
): Promise<ReadonlySet<string>> {
  const named = files.filter((file) => file !== undefined && file !== STANDARD_INPUT) as string[];
  const paths = await Promise.all(named.map((file) => realpath(onDisk(pathOf(file, workplace))).catch(() => null)));
  return new Set(paths.filter((path) => path !== null));
}
