import type { AttentionItem } from '../../attention/index.js';
import type { RefillRow } from '../../day/index.js';
import { nameMachine } from '../../day/name-row.js';
import type { Finding } from '../../findings/index.js';
import {
  type Interval,
  listReads,
  type MachineHistory,
  measureBetween,
  namesOfReads,
  type PlacedRead,
  type TakenRead,
} from '../../interval/index.js';
import { groupBy, keyOfName, type MachineRow, machineKey, nameOfMachineKey } from '../../model/index.js';
import type { Visit } from '../../settlement/index.js';
import type { Roster } from '../../sheets/index.js';
import type { PagesBatch } from '../machine-pages-maker.js';
import { type ShownRead, showReads } from './shown-reads.js';

/** All that a machine's page is made from. */
export interface MachineGiven {
  /** As the day's rows call it. */
  readonly machine: string;
  readonly location: string | null;
  readonly row: MachineRow | null;
  /** Key of its reads and its past; null where it has no read. */
  readonly key: string | null;
  /** Oldest first, those that are not used included. */
  readonly reads: readonly ShownRead[];
  /** Its last usable read. */
  readonly latest: TakenRead | null;
  /** Those of the day, newest first. */
  readonly intervals: readonly Interval[];
  readonly visits: readonly Visit[];
  /** What has to be looked at, worst first. */
  readonly items: readonly AttentionItem[];
  readonly refill: readonly RefillRow[];
  /** What was found on its reads of the day and between them. */
  readonly findings: readonly Finding[];
}

/**
 * Sort a batch by machine: those that are expected, then those that only came.
 *
 * Reads that say nothing of whose they are belong to no machine, and are on no page of one.
 */
export function gatherMachines({ inputs, day }: PagesBatch): MachineGiven[] {
  const expected = (inputs.expected ?? inputs.roster.books.machines).filter(({ active }) => active !== false);
  const rows = new Map(expected.map((row) => [row.machine, row]));
  const named = [...inputs.histories.machines.values()].flatMap(listReads);
  const reads = groupBy(named, (taken) => nameMachine(taken).machine);
  const files = new Set(inputs.checks.map(({ file }) => file));
  const checks = new Map(inputs.checks.map((check) => [check.file, check]));
  // A machine that is on no roster may be called otherwise by the sheets than by the day's rows.
  const names = namesOfReads(named);
  const visits = groupBy(
    day.settlements.flatMap((settlement) => settlement.visits),
    ({ machine }) => nameOfMachineKey(names.find(machine) ?? keyOfName(machine)),
  );
  const items = groupBy(day.attention, ({ machine }) => machine);
  const refill = groupBy(day.refill, ({ machine }) => machine);
  const findings = sortFindings(inputs, named);
  return [...new Set([...rows.keys(), ...reads.keys()])].map((machine) => {
    const own = reads.get(machine) ?? [];
    const key = own[0] === undefined ? null : machineKey(own[0]);
    const row = rows.get(machine) ?? own.at(-1)?.machine ?? null;
    const history = (key === null ? null : inputs.histories.machines.get(key)) ?? null;
    const ordered = history?.ordered ?? [];
    const ofDay = history === null ? [] : listIntervals(history, files, inputs.roster);
    const last = ordered.at(-1) ?? null;
    return {
      machine,
      location: row?.location ?? null,
      row,
      key,
      reads: showReads({ reads: own, ordered, checks }),
      latest: last === null ? null : history!.contentsOf(last),
      intervals: ofDay.toReversed(),
      visits: visits.get(machine) ?? [],
      items: items.get(machine) ?? [],
      refill: refill.get(machine) ?? [],
      findings: [...(findings.get(machine) ?? []), ...ofDay.flatMap((interval) => interval.findings)],
    };
  });
}

/** The intervals that begin or end with a capture of the day, with all that can be said of them. */
function listIntervals(history: MachineHistory, files: ReadonlySet<string>, roster: Roster): Interval[] {
  const steps = history.ordered.map((placed) => history.stepTo.get(placed)).filter((step) => step !== undefined);
  return steps
    .filter(({ from, to }) => files.has(from.file) || files.has(to.file))
    .map(({ from, to }) => measureBetween(history, from, to, roster))
    .filter((interval) => interval !== null);
}

/** Findings on reads of the day, by machine: those of a file as a whole where all of its reads are of one machine. */
function sortFindings(
  { checks, histories }: PagesBatch['inputs'],
  reads: readonly PlacedRead[],
): Map<string, readonly Finding[]> {
  const ofFile = groupBy(reads, ({ file }) => file);
  const files = new Set(checks.map(({ file }) => file));
  const found = [
    ...checks.flatMap(({ file, findings }) => findings.map((finding) => ({ file, finding }))),
    ...histories.findings.flatMap((finding) =>
      finding.file !== undefined && files.has(finding.file) ? [{ file: finding.file, finding }] : [],
    ),
  ];
  const named = found.flatMap(({ file, finding }) => {
    const machine = whoseIs(finding, ofFile.get(file) ?? []);
    return machine === null ? [] : [{ machine, finding }];
  });
  return new Map(
    [...groupBy(named, ({ machine }) => machine)].map(([machine, all]) => [machine, all.map(({ finding }) => finding)]),
  );
}

function whoseIs({ read }: Finding, reads: readonly PlacedRead[]): string | null {
  const meant = read === undefined ? reads : reads.filter((taken) => taken.read.number === read);
  const names = new Set(meant.map((taken) => nameMachine(taken).machine));
  return names.size === 1 ? [...names][0]! : null;
}
