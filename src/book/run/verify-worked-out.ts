import type { Roster } from '../../sheets/index.js';
import { ParsedFiles, Recall } from '../recall/index.js';
import type { BookRead, BookStep, BookStore, ReadKey, StepToKeep } from '../store/index.js';
import { addRemembered, recallOffice, recallOptions, withRemembered } from './known-roster.js';
import { recallEach } from './work-out.js';
import { workOutMachine } from './work-out-machine.js';

/** What is kept of a machine and is not what its captures give. */
export interface KeptDifference {
  readonly machine: string;
  /** The read, or the later read of the step. */
  readonly entry: number;
  readonly number: number;
  readonly what: 'read' | 'step' | 'surplus-step';
}

/** What came of working everything out anew. */
export interface WorkedOutVerification {
  /** Machines that were worked out anew and held against what is kept. */
  readonly machines: number;
  /** Machines that are not worked out since more came in: of these nothing kept is used. */
  readonly stale: number;
  readonly differences: readonly KeptDifference[];
}

/** So many are named; where one machine was tampered with the rest says no more. */
const MOST = 100;

/**
 * Work out anew, from the captures themselves, all that is kept of reads and steps, by what the office said when that was done
 * last, and hold it against what is kept. Nothing is written.
 *
 * @param roster - what the office says today; what it does not is as the book remembers it
 * @throws BookError (as a rejection) when the book cannot be read
 */
export async function verifyWorkedOut(store: BookStore, roster: Roster): Promise<WorkedOutVerification> {
  const remembered = await recallOffice(store);
  const known = addRemembered(withRemembered(roster, remembered), remembered.machines);
  const { isFileTimeReceived, ...said } = await recallOptions(store);
  const options = { take: { roster: known, ...said }, isFileTimeReceived };
  const parsed = new ParsedFiles(store);
  const stale = new Set((await store.staleMachines()).map(({ machine }) => machine));
  const differences: KeptDifference[] = [];
  let machines = 0;
  for (const { key } of await store.machines()) {
    if (stale.has(key)) continue;
    machines++;
    const rows = await store.readsOf(key);
    const reads = await recallEach(new Recall(store, options, parsed, { isAnew: true }), key, rows, known);
    const work = workOutMachine(reads, known, true)!;
    for (const { entry, number } of work.changed) differences.push({ machine: key, entry, number, what: 'read' });
    const kept = await store.stepsOf(key);
    for (const { to, what } of compareSteps(work.steps, kept)) differences.push({ machine: key, ...to, what });
    if (differences.length >= MOST) break;
  }
  return { machines, stale: stale.size, differences: differences.slice(0, MOST) };
}

function compareSteps(
  anew: readonly StepToKeep[],
  kept: readonly BookStep[],
): { readonly to: ReadKey; readonly what: KeptDifference['what'] }[] {
  const keptTo = new Map(kept.map((step) => [nameOf(step.to), step]));
  const found: { to: ReadKey; what: KeptDifference['what'] }[] = [];
  for (const step of anew) {
    const same = keptTo.get(nameOf(step.to));
    keptTo.delete(nameOf(step.to));
    if (same === undefined || !isSameStep(step, same)) found.push({ to: step.to, what: 'step' });
  }
  for (const { to } of keptTo.values()) found.push({ to, what: 'surplus-step' });
  return found;
}

function isSameStep(a: StepToKeep, b: StepToKeep): boolean {
  const isSameText = a.layout === b.layout && a.findings === b.findings && nameOf(a.from) === nameOf(b.from);
  return isSameText && Buffer.compare(a.figures, b.figures) === 0 && Buffer.compare(a.seal, b.seal) === 0;
}

const nameOf = ({ entry, number }: Pick<BookRead, 'entry' | 'number'>): string => `${entry}/${number}`;
