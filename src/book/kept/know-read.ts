import { type TakenWithFindings, type TakeOptions, takeChecked, withDoubtsOfFile } from '../../captures/index.js';
import { judge, summarizeRead } from '../../checks/index.js';
import type { Finding } from '../../findings/index.js';
import type { TakenRead } from '../../interval/index.js';
import { bestTime, machineKey } from '../../model/index.js';
import type { Read } from '../../read/index.js';
import type { JsonObject, KnownOfRead, RecordedRead } from '../store/index.js';
import { packRead } from './kept-read.js';
import { digestOffice, sealRead } from './rests-on.js';

/** A read with its contents, checked, and what the book keeps of that. */
export interface KnownRead {
  readonly taken: TakenRead;
  readonly findings: TakenWithFindings['findings'];
  readonly recorded: RecordedRead;
  readonly known: KnownOfRead;
}

/** What a read says of itself, as the book records it. */
function recordRead({ number, clock, machine: { asset, serial, board } }: Read, content: string): RecordedRead {
  return { number, asset, serial, board, clock, content };
}

/** A read on its way into the book, or taken out of it. */
export interface ReadToKnow {
  readonly read: Read;
  /** See `hashContent`. */
  readonly content: string;
  /** What was found on its file as a whole, with the first read of the file; null where it is not known yet. */
  readonly ofFile: readonly Finding[] | null;
  /** The machine that the book keeps it under. Default: as the office of today says. */
  readonly machine?: string | null;
  /** What else is remembered of it. */
  readonly facts?: JsonObject;
}

/**
 * Take a read into the accounts and say what the book keeps of it: the one place where a read of a book is checked.
 *
 * @param file - as findings name it
 */
export function knowRead(file: string, given: ReadToKnow, options: TakeOptions): KnownRead {
  const { read, content, ofFile, facts: remembered = {} } = given;
  const { taken: alone, resolved, context, findings } = takeChecked(file, read, options);
  const isAlone = read.number === 0 && read.isLastOfFile && ofFile !== null;
  const taken = isAlone ? withDoubtsOfFile([alone], ofFile)[0]! : alone;
  const { receivedAt, reason, bag, currency, decimals, filled } = taken;
  const { signal, saidName } = resolved;
  const kept = packRead(read, summarizeRead(read, context), { signal, machine: saidName }, findings, ofFile);
  const known = {
    machine: given.machine === undefined ? machineKey(taken) : given.machine,
    ...{ receivedAt, reason, bag, currency, decimals },
    verdict: judge(findings),
    at: bestTime(taken),
    facts: { ...remembered, ...(filled === null ? {} : { filled }), kept },
  };
  const office = digestOffice(options.roster, taken.machine, options);
  const recorded = recordRead(read, content);
  return { taken, findings, recorded, known: { ...known, rests: sealRead(office, resolved, recorded, known) } };
}
