import { adviseAtCabinet, type Finding, makeFinding, printable, type Severity } from '../findings/index.js';
import { minutesBetween } from '../model/index.js';
import { baseDetail } from './interval-finding.js';
import type { ReadPair } from './read-pair.js';
import { countReads } from './reads-between.js';
import { findRelabellings } from './relabelling.js';
import type { Restart } from './restart.js';
import { placeIn } from './taken-read.js';

/** How far a clock may go back before it is said, in minutes (domain rule: the default tolerance). */
const CLOCK_TOLERANCE_MINUTES = 10;
const HOUR = 60;

/** Findings about a pair of reads as a whole: restarts, resets by others, order, clocks that went back. */
export function judgePair(pair: ReadPair): Finding[] {
  return [
    ...judgeMoney(pair),
    ...judgeRestart(pair),
    ...judgeIdentity(pair),
    ...judgeResets(pair),
    ...judgeOrder(pair),
    ...judgeClocks(pair),
  ];
}

function judgeMoney(pair: ReadPair): Finding[] {
  if (pair.isSameMoney) return [];
  const say = ({ currency, decimals }: ReadPair['to']): string =>
    `${currency ?? 'no currency'} with ${decimals ?? 'unknown'} decimals`;
  const message = `The earlier read is in ${say(pair.from)}, the later in ${say(pair.to)}: amounts cannot be taken from each other.`;
  return [makeFinding('currency-changed', message, baseDetail(pair, 'ID401'))];
}

const RESTART_WORDS: Readonly<Record<Restart['counters'], string>> = {
  'from-zero':
    'What was sold since the counters started again is known and is a floor; what was sold before that, after the last read, is lost.',
  'go-on': 'The counters go on from where they stood; nothing shows that none was lost, so the figures are a floor.',
  'not-known':
    'What the counters show cannot be told from what they counted before or elsewhere, so no figure is taken from them.',
};

function judgeRestart(pair: ReadPair): Finding[] {
  const { restart } = pair;
  if (restart === null) return [];
  const words = RESTART_WORDS[restart.counters];
  if (restart.cause === 'board-changed') {
    const board = pair.to.read.text('CB101') ?? pair.to.read.text('ID101') ?? '';
    const message = `The control board was changed (${restart.evidence}; now ${printable(board, 30)}). ${words}`;
    const advice = 'Ask who changed the board, and for a capture of the old one if it still exists.';
    return [makeFinding('board-changed', message, { ...baseDetail(pair, 'CB101'), advice })];
  }
  const advice = 'Ask who cleared it, and why.';
  const message = `The memory was cleared: ${restart.evidence}. ${words}`;
  return [makeFinding('memory-cleared', message, { ...baseDetail(pair, 'EA401'), advice })];
}

const RELABELLED_WORDS = {
  ID101: ['machine number', 'asset, columns and board are the same, and the counters went on'],
  ID106: ['asset number', 'board and serial number did not change'],
} as const;

/** A number that was set anew on one machine. */
function judgeIdentity(pair: ReadPair): Finding[] {
  return findRelabellings(pair.from, pair.to).map(({ element, before, after }) => {
    const [what, why] = RELABELLED_WORDS[element];
    const message = `The ${what} (${element}) changed from ${printable(before, 30)} to ${printable(after, 30)}: ${why}, so it is taken for the same machine, relabelled. All figures stand.`;
    const advice = 'Ask who set it, and enter the new number in the roster.';
    return makeFinding('relabelled', message, { ...baseDetail(pair, element), advice });
  });
}

function judgeResets(pair: ReadPair): Finding[] {
  // Without lifetime counters the figures suffer from it: that is said of the counters.
  if (pair.reset !== 'unseen' || !pair.keepsLifetime) return [];
  const reads = countReads(pair.from, pair.to);
  const confirmed =
    reads !== null && reads > 1
      ? ` The machine counted ${reads - 1} other ${reads === 2 ? 'read' : 'reads'} in between.`
      : '';
  const message = `Somebody else cleared the interval counters between the two reads. Lifetime counters are not touched by that.${confirmed}`;
  return [makeFinding('unseen-reset', message, baseDetail(pair, 'EA301'))];
}

/** Times that contradict the order of the reads, which goes by the machine's counters. */
function judgeOrder(pair: ReadPair): Finding[] {
  const { from, to } = pair;
  if (pair.isReversed) {
    const why = `The counters are lower than in ${printable(from.file, 200)}, and it is the read with the earlier time or the smaller number of reads: the two are in the wrong order.`;
    return [sayOrder(pair, why, 'doubt')];
  }
  if (pair.restart !== null) return [];
  const arrived = isBefore(to.receivedAt, from.receivedAt);
  const clock = isBefore(to.read.clock, from.read.clock);
  if (!arrived && !clock) return [];
  const byArrival = clock ? 'arrived before it, and the clock says the same' : 'arrived before it';
  const message = `This read comes after the one in ${printable(from.file, 200)} by the machine's counters, though it ${arrived ? byArrival : 'has an earlier clock'}. The counters are followed.`;
  return [sayOrder(pair, message, arrived && clock ? 'doubt' : 'note')];
}

function sayOrder({ from, to }: ReadPair, message: string, severity: Severity): Finding {
  const related = [placeIn(from, from.read.place('ID501'))];
  return makeFinding('out-of-order', message, { ...placeIn(to, to.read.place('ID501')), related, severity });
}

const isBefore = (a: string | null, b: string | null): boolean => a !== null && b !== null && a < b;

function judgeClocks(pair: ReadPair): Finding[] {
  const before = pair.from.read.clock;
  const after = pair.to.read.clock;
  if (!isBefore(after, before) || pair.isReversed) return [];
  const back = minutesBetween(after!, before!);
  if (back <= CLOCK_TOLERANCE_MINUTES) return [];
  const [then, now] = [before!, after!].map((when) => when.slice(0, 16).replace('T', ' '));
  const summer = back <= HOUR ? ' That may be the end of daylight-saving time.' : '';
  const message = `The machine's clock went back: ${then} at the earlier read, ${now} at the later.${summer}`;
  const advice = adviseAtCabinet(
    "Set the machine's clock. Times of sales and events are not to be relied on until then.",
  );
  return [makeFinding('clock-jump', message, { ...baseDetail(pair, 'ID501'), ...advice })];
}
