import {
  keyOfName,
  keyOfNumbers,
  type LocalDateTime,
  type MachineKey,
  type ReadTime,
  sheetNameOfKey,
  timeOfRead,
} from '../model/index.js';
import type { MachineIdentity, Read } from '../read/index.js';
import type { CheckContext } from './check.js';

/** What is said of one read, as data: see the output contract of `check`. Null is not known. */
export interface ReadSummary {
  readonly machine: MachineIdentity & {
    /** The operator's own name of the machine, and its location, from the roster. */
    readonly name: string | null;
    readonly location: string | null;
  };
  readonly clock: LocalDateTime | null;
  /** What a reader appended to ST. */
  readonly appendedAt: LocalDateTime | null;
  readonly receivedAt: LocalDateTime | null;
  readonly currency: string | null;
  readonly decimals: number | null;
  readonly segments: { readonly stated: number | null; readonly counted: number };
  readonly integrity: {
    readonly state: 'exact' | 'byte-swapped' | 'line-endings' | 'range-variant' | 'damaged' | 'absent';
    readonly stated: string | null;
    readonly computed: string | null;
  };
  readonly complete: boolean;
  readonly columns: number;
}

/** Sum up a read. */
export function summarizeRead(read: Read, context: CheckContext): ReadSummary {
  const { state, stated, computed } = read.integrity;
  const { machine, receivedAt, currency, decimals } = context;
  return {
    machine: { ...read.machine, name: machine?.machine ?? null, location: machine?.location ?? null },
    clock: read.clock,
    appendedAt: read.appendedAt,
    receivedAt,
    currency,
    decimals,
    segments: read.segments,
    integrity: { state, stated, computed },
    complete: read.isComplete,
    columns: read.columnCount,
  };
}

/** The key of the machine that a read was of; see `machineKey`. */
export function keyOfSummary({ machine }: Pick<ReadSummary, 'machine'>): MachineKey | null {
  return machine.name === null ? keyOfNumbers(machine) : keyOfName(machine.name);
}

/** What the office calls the machine of a read, else the number that the machine gives; null where it gives none. */
export function nameOfSummary(summary: Pick<ReadSummary, 'machine'>): string | null {
  const key = keyOfSummary(summary);
  return key === null ? null : sheetNameOfKey(key);
}

/** When a read was taken; see `timeOfRead`. */
export function timeOfSummary(summary: ReadSummary): ReadTime | null {
  return timeOfRead({ receivedAt: summary.receivedAt, read: summary });
}
