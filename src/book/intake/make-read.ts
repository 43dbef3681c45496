import { type TakeOptions, takeRead } from '../../captures/index.js';
import { checkRead, judge } from '../../checks/index.js';
import type { Finding } from '../../findings/index.js';
import { type LocalDateTime, machineKey } from '../../model/index.js';
import type { Read } from '../../read/index.js';
import type { JsonObject, ReadToRecord } from '../store/index.js';
import { hashContent } from './hash-content.js';

/** Makes reads what the book records of them: checked once, by the roster of today. */
export class ReadMaker {
  readonly #take: TakeOptions;
  /** Of the read that was taken last: the taken read has the faults only. */
  #findings: readonly Finding[] = [];

  constructor(take: TakeOptions) {
    const check = take.check ?? checkRead;
    this.#take = {
      ...take,
      check: (read, context) => {
        this.#findings = check(read, context);
        return this.#findings;
      },
    };
  }

  /**
   * What is recorded of each read of a file.
   *
   * @param receivedAt - the file's own time, where the user says that it is when the file was received
   */
  ofFile(name: string, receivedAt: LocalDateTime | null): (read: Read) => ReadToRecord {
    const options = receivedAt === null ? this.#take : { ...this.#take, fileTime: receivedAt };
    return (read) => this.#make(name, read, options);
  }

  #make(name: string, read: Read, options: TakeOptions): ReadToRecord {
    const taken = takeRead(name, read, options);
    const { receivedAt, reason, bag, currency, decimals, filled } = taken;
    const { asset, serial } = read.machine;
    return {
      number: read.number,
      asset,
      serial,
      board: read.text('CB101'),
      clock: read.clock,
      content: hashContent(read),
      machine: machineKey(taken),
      receivedAt,
      reason,
      bag,
      currency,
      decimals,
      verdict: judge(this.#findings),
      facts: describe(this.#findings, filled),
    };
  }
}

/** What is at hand of a read without reading it again; null when there is nothing to say. */
function describe(findings: readonly Finding[], filled: boolean | null): JsonObject | null {
  if (findings.length === 0 && filled === null) return null;
  const codes = [...new Set(findings.map(({ code }) => code))];
  return { ...(codes.length === 0 ? {} : { codes }), ...(filled === null ? {} : { filled }) };
}
