import { type Finding, makeFinding, printable } from '../findings/index.js';
import { minutesBetween } from '../model/index.js';
import { baseDetail } from './interval-finding.js';
import type { ReadPair } from './read-pair.js';

/** Findings about a pair of reads as a whole: restarts, resets by others, clocks that went back. */
export function judgePair(pair: ReadPair): Finding[] {
  return [...judgeRestarts(pair), ...judgeResets(pair), ...judgeClocks(pair)];
}

function judgeRestarts(pair: ReadPair): Finding[] {
  const { restart } = pair;
  if (restart === null) return [];
  const lost = restart.wentDown
    ? 'Sales since the restart are known and are a floor; what was sold between the last read and the restart is lost.'
    : 'No counter went down, so they seem carried over; the figures are a floor.';
  if (restart.cause === 'board-changed') {
    const { read } = pair.to;
    const board = read.text('CB101') ?? read.text('ID101') ?? '';
    const message = `The control board was changed (${restart.evidence}; now ${printable(board, 30)}). ${lost}`;
    const advice = 'Ask who changed the board, and for a capture of the old one if it still exists.';
    return [makeFinding('board-changed', message, { ...baseDetail(pair, 'CB101'), advice })];
  }
  const message = `The memory was cleared: ${restart.evidence}. ${lost}`;
  return [
    makeFinding('memory-cleared', message, { ...baseDetail(pair, 'EA401'), advice: 'Ask who cleared it, and why.' }),
  ];
}

function judgeResets(pair: ReadPair): Finding[] {
  if (pair.reset !== 'unseen') return [];
  const message =
    'Somebody else cleared the interval counters between the two reads. The lifetime counters cover the whole time.';
  return [makeFinding('unseen-reset', message, baseDetail(pair, 'EA301'))];
}

function judgeClocks(pair: ReadPair): Finding[] {
  const before = pair.from.read.clock;
  const after = pair.to.read.clock;
  if (before === null || after === null || after >= before) return [];
  const message = `The machine's clock went back: ${before.replace('T', ' ')} at the earlier read, ${after.replace('T', ' ')} at the later (${-minutesBetween(before, after)} minutes).`;
  const advice = 'Set the clock. Times of sales and events before that are not to be relied on.';
  return [makeFinding('clock-jump', message, { ...baseDetail(pair, 'ID501'), advice })];
}
