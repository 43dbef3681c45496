import { createHash } from 'node:crypto';
import type { CheckCircumstances, ResolvedRead } from '../../checks/index.js';
import type { MachineRow } from '../../model/index.js';
import type { Roster } from '../../sheets/index.js';
import type { BookStep, RecordedRead, StepToKeep, WorkedOutRead } from '../store/index.js';

/**
 * The version of the rules by which reads are checked and steps worked out. It goes up whenever the same captures give
 * another result than before, so that what was kept is worked out anew; a test fails when results change and it does not.
 */
export const RULES_VERSION = 4;

/** What the user says of all captures, as far as results rest on it. */
export type OfficeOptions = Pick<CheckCircumstances, 'defaults' | 'clockToleranceMinutes'>;

/** How many bytes of a SHA-256 tell one state from another here: by accident two are the same once in 2^64. */
const DIGEST_BYTES = 16;

function digest(parts: readonly (string | Uint8Array)[]): Uint8Array {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(`${part.length} `).update(part);
  return hash.digest().subarray(0, DIGEST_BYTES);
}

const DIGESTS = new WeakMap<Roster, Map<string, string>>();

/**
 * A digest of all that the office says and that results of a machine's reads rest on: its row (but where it stands, who
 * drives there and what is paid on it), its plan, the profiles, the options.
 *
 * @param row - null for a machine that is not on the roster
 */
export function digestOffice(roster: Roster, row: MachineRow | null, options: OfficeOptions): string {
  const { defaults = null, clockToleranceMinutes = null } = options;
  const said = JSON.stringify([defaults?.currency ?? null, defaults?.decimals ?? null, clockToleranceMinutes]);
  const known = DIGESTS.get(roster) ?? new Map<string, string>();
  DIGESTS.set(roster, known);
  const key = `${said} ${row === null ? '' : `machine ${row.machine}`}`;
  const found = known.get(key);
  if (found !== undefined) return found;
  const parts = [String(RULES_VERSION), said, JSON.stringify(roster.books.profiles), ...partsOfMachine(roster, row)];
  const made = Buffer.from(digest(parts)).toString('hex');
  known.set(key, made);
  return made;
}

function partsOfMachine(roster: Roster, row: MachineRow | null): string[] {
  if (row === null) return [roster.books.machines.length > 0 ? 'not on the roster' : 'no roster'];
  const { machine, asset, serial, currency, decimals, hasCash, hasBills, hasCard, profile } = row;
  const plan = roster.plan(machine).map(({ place: _, ...rest }) => rest);
  return [
    JSON.stringify([machine, asset, serial, currency, decimals, hasCash, hasBills, hasCard, profile]),
    JSON.stringify(plan),
  ];
}

/**
 * What binds what is kept of a read to what it rests on: the office, what was told of the file, the read's contents and what
 * it says of itself, and the result, so that neither a change of any of these nor of the result goes unseen.
 */
export function sealRead(office: string, resolved: ResolvedRead, recorded: RecordedRead, kept: SealedRead): Uint8Array {
  const { receivedAt, reason, bag, filled, signal, saidName } = resolved;
  const told = JSON.stringify([receivedAt, reason, bag, filled, signal, saidName]);
  const { machine, currency, decimals, verdict, at, facts } = kept;
  const result = JSON.stringify([machine, currency, decimals, verdict, at, facts ?? null]);
  const { number, asset, serial, board, clock, content } = recorded;
  return digest([office, told, JSON.stringify([number, asset, serial, board, clock, content]), result]);
}

/** What is kept of a read. */
export type SealedRead = Pick<WorkedOutRead, 'machine' | 'currency' | 'decimals' | 'verdict' | 'at' | 'facts'>;

/** The same for a step: its two reads, each with all it rests on, and the result. */
export function sealStep(
  from: Uint8Array,
  to: Uint8Array,
  { layout, figures, findings }: Pick<StepToKeep, 'layout' | 'figures' | 'findings'>,
): Uint8Array {
  return digest([from, to, layout, figures, findings ?? '']);
}

/** Whether a step is what was worked out from its two reads as they are kept now. */
export function fitsStep(step: BookStep): boolean {
  const { fromRests, toRests, seal } = step;
  return fromRests !== null && toRests !== null && Buffer.compare(sealStep(fromRests, toRests, step), seal) === 0;
}
