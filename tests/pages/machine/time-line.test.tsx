import { describe, expect, it } from 'vitest';
import { renderPart } from '../../../src/pages/index.js';
import type { ShownRead } from '../../../src/pages/machine/shown-reads.js';
import { layOutTimeLine } from '../../../src/pages/machine/time-line.js';
import { TimeLinePart } from '../../../src/pages/machine/time-line-part.js';
import { readOf } from '../../support/interval-cases.js';
import { textOf } from '../support/look-at-page.js';

const taken = readOf('from', []);
const shown = (at: string | null, given: Partial<ShownRead> = {}): ShownRead => ({
  taken,
  at,
  use: 'used',
  verdict: null,
  isService: null,
  clockAhead: null,
  isClockDoubtful: false,
  daysMissed: 0,
  ...given,
});
const day = (date: number, time = '10:00:00'): string => `2026-11-${date}T${time}`;

describe('layOutTimeLine', () => {
  it('places reads by their times, whatever order they come in', () => {
    const drawing = layOutTimeLine([shown(day(20)), shown(day(24), { daysMissed: 2 }), shown(day(21))], [0, 400])!;
    expect(drawing.points.map(({ number, x }) => [number, x])).toEqual([
      [1, 0],
      [3, 100],
      [2, 400],
    ]);
    expect(drawing.stretches).toEqual([
      { from: 0, to: 100, isGap: false },
      { from: 100, to: 400, isGap: true },
    ]);
  });

  it('has a shape for every verdict', () => {
    const reads = [
      shown(day(20), { verdict: 'sound' }),
      shown(day(21), { verdict: 'doubtful' }),
      shown(day(22), { verdict: 'sound', use: 'set-aside' }),
      shown(day(23), { verdict: null, use: 'faulty' }),
      shown(day(24)),
    ];
    const shapes = layOutTimeLine(reads, [0, 400])!.points.map(({ shape }) => shape);
    expect(shapes).toEqual(['sound', 'doubtful', 'set-aside', 'read-again', 'used']);
  });

  it('leaves numbers out that would lie on each other, and is no line for fewer than two times', () => {
    const close = [shown(day(20, '10:00:00')), shown(day(20, '10:10:00')), shown(day(24))];
    expect(layOutTimeLine(close, [0, 300])!.points.map(({ hasRoom }) => hasRoom)).toEqual([true, false, true]);
    for (const reads of [[], [shown(null)], [shown(day(20)), shown(null)], [shown(day(20)), shown(day(20))]]) {
      expect(layOutTimeLine(reads, [0, 300])).toBeNull();
    }
  });
});

const wordsOf = (...reads: ShownRead[]): string => textOf(renderPart(<TimeLinePart reads={reads} />));

describe('the time line', () => {
  it('says in words and in a table what it draws', () => {
    const text = wordsOf(
      shown(day(20), { isService: true, taken: { ...taken, reason: 'service' } }),
      shown(day(23), { verdict: 'doubtful', daysMissed: 2, clockAhead: 14, isClockDoubtful: true }),
      shown(null, { use: 'faulty', taken: readOf('from', ['ID5*9']) }),
    );
    expect(text).toContain(
      'diamond: of an earlier day, used; triangle: doubtful; S: service; ?: clock in doubt; broken',
    );
    expect(text).toContain('1 2026-11-20 10:00 ·used, of an earlier day service held against nothing from.dex');
    expect(text).toContain('?doubtful not stated 3 d: 2 days without a read ?in doubt 14 minutes ahead from.dex');
    expect(text).toContain('3 –time not known ×read again not stated gives no time from.dex');
  });

  it('says what was set aside, and how right a clock is', () => {
    const text = wordsOf(
      shown(day(20), { use: 'set-aside', verdict: 'sound' }),
      shown(day(21), { clockAhead: 0, verdict: 'sound' }),
      shown(day(22), { clockAhead: -1, use: 'faulty', verdict: 'read-again' }),
      shown(day(23), { use: 'set-aside' }),
    );
    expect(text).toContain('=sound ·set aside, not counted again not stated from.dex');
    expect(text).toContain('1 d right');
    expect(text).toContain('×read again not stated 1 d 1 minute behind');
  });

  it('shows the last of very many, and says so; and that there is none', () => {
    const many = Array.from({ length: 100 }, () => shown(day(20)));
    expect(wordsOf(...many)).toMatch(/^40 earlier reads not shown here\. Reads, oldest first/);
    expect(wordsOf()).toBe('No read of this machine is known.');
  });
});
