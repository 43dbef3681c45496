import type { LocalDateTime } from '../model/index.js';
import type { Read } from '../read/index.js';
import type { CheckContext } from './check.js';

/** What is said of one read, as data: see the output contract of `check`. Null is not known. */
export interface ReadSummary {
  readonly machine: {
    readonly asset: string | null;
    readonly serial: string | null;
    readonly model: string | null;
    /** The operator's own name of the machine, and its location, from the roster. */
    readonly name: string | null;
    readonly location: string | null;
  };
  readonly clock: LocalDateTime | null;
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
  const { asset, serial, model } = read.machine;
  const { state, stated, computed } = read.integrity;
  const { machine, receivedAt, currency, decimals } = context;
  return {
    machine: { asset, serial, model, name: machine?.machine ?? null, location: machine?.location ?? null },
    clock: read.clock,
    receivedAt,
    currency,
    decimals,
    segments: read.segments,
    integrity: { state, stated, computed },
    complete: read.isComplete,
    columns: read.columnCount,
  };
}
