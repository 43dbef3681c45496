import { takeReads } from '../../src/captures/index.js';
import { makeFinding } from '../../src/findings/index.js';
import type { TakenRead } from '../../src/interval/index.js';
import type { CaptureListRow, CaptureReason, CountRow, MachineRow } from '../../src/model/index.js';
import type { Profile } from '../../src/profile/index.js';
import { type Read, readCaptures } from '../../src/read/index.js';
import { Roster } from '../../src/sheets/index.js';
import type { History } from '../support/arbitraries/history.js';
import type { RoundMachine } from '../support/arbitraries/round.js';
import { fromSeconds, toSeconds } from '../support/simulator/index.js';
import { makeCount, makeMachine } from './scenario.js';

/** Only what keeps a read out of the accounts; the checks themselves have tests of their own. */
export const faultsOnly = (read: Read) =>
  read.integrity.state === 'damaged' || !read.isComplete ? [makeFinding('integrity-damaged', 'damaged')] : [];

/** One read of a round: its file, its bytes, and what the captures list says of it. */
export interface RoundRead {
  readonly machine: string;
  /** Its place in the machine's history. */
  readonly index: number;
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly at: string;
  readonly reason: CaptureReason;
}

/** A bag of a round: what truly lay in it. */
export interface RoundBag {
  readonly machine: string;
  readonly index: number;
  readonly at: string;
  readonly bag: string;
  readonly coins: number;
  readonly bills: number;
  readonly history: History;
}

const HOURS_APART = 25;
const START = toSeconds('2026-11-02T08:00:00');

/**
 * A round's reads and bags, more than a day apart, so that no capture fits the time or the date of another visit. The opening
 * visit has no bag here: what came before is not known.
 */
export function playRound(machines: readonly RoundMachine[]): { reads: RoundRead[]; bags: RoundBag[] } {
  const reads: RoundRead[] = [];
  const bags: RoundBag[] = [];
  for (const { machine, history } of machines) {
    for (const [index, read] of history.reads.entries()) {
      const at = fromSeconds(START + index * HOURS_APART * 3600);
      const reason = read.service ? 'service' : 'scheduled';
      reads.push({ machine, index, file: `${machine}-${index}.dex`, bytes: read.bytes, at, reason });
      if (read.bag === null || index === 0) continue;
      const { coins, bills } = read.bag;
      bags.push({ machine, index, at, bag: `${machine}/${index}`, coins, bills, history });
    }
  }
  return { reads, bags };
}

/** The sheets and reads of a round as they are given to the settlement. */
export function takeRound(
  machines: readonly RoundMachine[],
  reads: readonly RoundRead[],
  more: { profiles?: readonly Profile[]; machine?: Partial<MachineRow> } = {},
): { roster: Roster; reads: TakenRead[] } {
  const capturesList = reads.map(
    ({ file, machine, at, reason }, i): CaptureListRow => ({
      file,
      receivedAt: at,
      reason,
      signal: null,
      filled: null,
      machine,
      bag: null,
      place: { file: 'captures.csv', row: i + 2 },
    }),
  );
  const rows = machines.map(({ machine, history }, i) => {
    const { currency, decimals } = history.config.money;
    const { serial } = history.config.identity;
    return makeMachine({ machine, serial, currency, decimals, route: 'R1', driver: `D${i % 2}`, ...more.machine });
  });
  const roster = new Roster({ machines: rows, capturesList, profiles: more.profiles ?? [] });
  return {
    roster,
    reads: reads.flatMap(({ file, bytes }) =>
      takeReads(file, readCaptures(bytes).reads, { roster, check: faultsOnly }),
    ),
  };
}

/** The row of the count sheet for a bag, with what was put wrong in it. */
export function countBag(
  { machine, at, bag, coins, bills }: RoundBag,
  row: number,
  wrong = { coins: 0, bills: 0 },
): CountRow {
  return makeCount(machine, at, { bag, coins: coins + wrong.coins, bills: bills + wrong.bills, row });
}
