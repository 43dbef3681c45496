import type { TakenRead } from '../../src/interval/index.js';
import { currencyByAlpha } from '../../src/model/index.js';
import { readCaptures } from '../../src/read/index.js';
import { Roster } from '../../src/sheets/index.js';
import { buildCapture, type CaptureOptions } from './build-capture.js';

/** What is known of a read besides its bytes; whatever is left out is not known. */
export interface TakenOptions extends Partial<Omit<TakenRead, 'read' | 'machine' | 'matchedBy' | 'file'>> {
  readonly file?: string;
  /** Default: a roster that knows nothing. */
  readonly roster?: Roster;
  /** The roster's machine that the captures list names, for a read that none fits by asset or serial number. */
  readonly listedAs?: string;
}

/** The reads of a capture as the accounts take them, without any check of theirs. */
export function takeAll(bytes: Uint8Array, options: TakenOptions = {}): TakenRead[] {
  const { roster = new Roster(), listedAs, ...known } = options;
  return readCaptures(bytes).reads.map((read): TakenRead => {
    const match = roster.matchMachine(read);
    const listed = listedAs === undefined ? null : roster.machine(listedAs);
    const machine = match?.machine ?? listed;
    const { profile } = roster.profile(read, machine);
    const currency = read.currency ?? machine?.currency ?? null;
    return {
      file: 'a.dex',
      read,
      machine,
      matchedBy: match?.by ?? (machine === null ? null : 'list'),
      profile,
      currency,
      decimals: profile?.decimals ?? read.decimals ?? currencyByAlpha(machine?.currency ?? '')?.decimals ?? null,
      receivedAt: null,
      reason: null,
      bag: null,
      filled: roster.listed(known.file ?? 'a.dex')?.filled ?? null,
      faults: [],
      doubts: [],
      ...known,
    };
  });
}

/** The only read of a capture; wrong use when there is none or more than one. */
export function takeOne(bytes: Uint8Array, options: TakenOptions = {}): TakenRead {
  const [taken, ...others] = takeAll(bytes, options);
  if (taken === undefined || others.length > 0) throw new RangeError('not exactly one read');
  return taken;
}

/** A read of these data segments, as the accounts take it. */
export function takeSegments(
  segments: readonly string[],
  options: TakenOptions = {},
  capture: CaptureOptions = {},
): TakenRead {
  return takeOne(buildCapture(segments, capture), options);
}
