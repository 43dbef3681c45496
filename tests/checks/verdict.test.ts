import { describe, expect, it } from 'vitest';
import { firstSentence, judge, writeHeadline } from '../../src/checks/verdict.js';
import { adviseAtCabinet, makeFinding } from '../../src/findings/index.js';

const note = makeFinding('padding', 'N.');
const doubt = makeFinding('clock-wrong', 'D.', adviseAtCabinet('Set the clock.'));
const fault = makeFinding('cut-short', 'F.', { advice: 'Read the machine again. Keep the file.' });

describe('verdict', () => {
  // The rule of the output contract: a fault makes it read-again, a doubt doubtful, notes leave it sound.
  it('goes by the worst finding', () => {
    expect(judge([])).toBe('sound');
    expect(judge([note, note])).toBe('sound');
    expect(judge([note, doubt])).toBe('doubtful');
    expect(judge([note, doubt, fault])).toBe('read-again');
  });

  it('takes a doubt for a fault when strict, but no note', () => {
    expect(judge([doubt], true)).toBe('read-again');
    expect(judge([note], true)).toBe('sound');
  });
});

describe('headline', () => {
  it('is the verdict and the one thing to do', () => {
    expect(writeHeadline('sound', [note])).toBe('Sound: nothing to do.');
    expect(writeHeadline('read-again', [fault, doubt])).toBe('Read again: read the machine again.');
    expect(writeHeadline('doubtful', [makeFinding('clock-jump', 'The clock jumped.')])).toBe(
      'Doubtful: the clock jumped.',
    );
  });

  it('points to the cautions where it sends a hand into a cabinet', () => {
    expect(writeHeadline('doubtful', [doubt])).toBe('Doubtful: set the clock. Mind the cautions below.');
  });

  it('takes the first sentence of an advice', () => {
    expect(firstSentence('Do this')).toBe('Do this');
    expect(firstSentence('Pay 1.50 now. Then go.')).toBe('Pay 1.50 now.');
  });
});
