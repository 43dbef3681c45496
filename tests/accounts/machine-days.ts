import { takeReads } from '../../src/captures/index.js';
import { buildIntervals, type Interval, type TakenRead } from '../../src/interval/index.js';
import { readCaptures } from '../../src/read/index.js';
import { Roster, readMachines } from '../../src/sheets/index.js';
import { buildCapture } from '../support/build-capture.js';

/** Lifetime counters of one machine at one moment. What is not given is not in the capture. */
export interface Counters {
  readonly asset?: string;
  /** `2026-11-16 10:00`; null for a machine without a clock. */
  readonly at: string | null;
  /** CA201. */
  readonly cash?: number;
  /** DA201, with the serial number of the device (DA101). */
  readonly card?: number;
  readonly device?: string;
  /** DB201 and DB101. */
  readonly card2?: number;
  readonly device2?: string;
  /** CA305, as if all of it went to the cash box. */
  readonly cashIn?: number;
  /** Segments of any kind. */
  readonly more?: readonly string[];
  readonly currency?: string;
  readonly board?: string;
}

/** A capture with these counters, lifetime ones only. */
export function writeCounters(counters: Counters): Uint8Array {
  const { asset = 'A1', at, cash, card, device, card2, device2, cashIn, more = [], currency = 'EUR', board } = counters;
  const [date = '', time = ''] = (at ?? '').replace(/-/g, '').replace(':', '').split(' ');
  const line = (when: unknown, text: string): string[] => (when === undefined ? [] : [text]);
  return buildCapture([
    `ID1*S-${asset}*M****${asset}`,
    `ID4*2**${currency}`,
    ...(at === null ? [] : [`ID5*${date}*${time}`]),
    ...line(board, `CB1*${board}`),
    ...line(device, `DA1*${device}`),
    ...line(device2, `DB1*${device2}`),
    ...line(cash, `CA2*${cash}*700`),
    ...line(cashIn, `CA3*****${cashIn}*${cashIn}*0*0`),
    ...line(cashIn, 'CA4***0*0'),
    ...line(card, `DA2*${card}*200`),
    ...line(card2, `DB2*${card2}*100`),
    ...more,
  ]);
}

/** A roster of a sheet's text. */
export function rosterOf(content: string): Roster {
  const { rows, findings } = readMachines({ file: 'machines.csv', content });
  if (findings.some(({ severity }) => severity !== 'note'))
    throw new Error(findings.map(({ message }) => message).join());
  return new Roster({ machines: rows });
}

/** Reads as the accounts take them. */
export function takeCounters(all: readonly Counters[], roster = new Roster()): TakenRead[] {
  return all.flatMap((counters, i) =>
    takeReads(`read-${i}.dex`, readCaptures(writeCounters(counters)).reads, { roster, check: () => [] }),
  );
}

/** The intervals between them, machine by machine. */
export function intervalsOf(all: readonly Counters[], roster = new Roster()): readonly Interval[] {
  return buildIntervals(takeCounters(all, roster), roster).intervals;
}
