import { describe, expect, it } from 'vitest';
import type { CaptureLine, Report } from '../../../src/driver/desk/messages.js';
import { PAGE_LENGTH, pageOf } from '../../../src/driver/page/page-of.js';
import { sayStatus } from '../../../src/driver/page/say-status.js';
import { changeState, EMPTY_STATE, type PageEvent, type PageState } from '../../../src/driver/page/state.js';
import { Store } from '../../../src/driver/page/store.js';
import { lineOf, viewOf } from './samples.js';

const after = (...events: readonly PageEvent[]): PageState => events.reduce(changeState, EMPTY_STATE);
const sorted = (total: number, run = 1): Report => ({ tell: 'sorted', run, total, sheets: [] });
const checked = (lines: readonly CaptureLine[], run = 1): Report => ({ tell: 'checked', run, lines });
const ended = (run = 1): Report => ({ tell: 'ended', run, isStopped: false, between: null });
const LINES = [lineOf(0, 'sound'), lineOf(1, 'read-again'), lineOf(2, 'doubtful')];

describe('changeState', () => {
  it('goes from files to an answer', () => {
    expect(after({ did: 'take' }).phase).toBe('sorting');
    const checking = after({ did: 'take' }, sorted(3), checked(LINES.slice(0, 1)));
    expect(checking).toMatchObject({ phase: 'checking', total: 3, counts: { sound: 1, doubtful: 0, 'read-again': 0 } });
    const done = changeState(changeState(checking, checked(LINES.slice(1))), ended());
    expect(done).toMatchObject({ phase: 'done', counts: { sound: 1, doubtful: 1, 'read-again': 1 } });
    expect(done.lines).toEqual(LINES);
  });

  it('keeps what it shows until the next files are sorted, and then nothing of it', () => {
    const done = after({ did: 'take' }, sorted(3), checked(LINES), ended());
    const next = changeState(done, { did: 'take' });
    expect(next.lines).toEqual(LINES);
    expect(changeState(next, sorted(5, 2))).toMatchObject({ lines: [], total: 5, phase: 'checking' });
    expect(changeState(done, { did: 'clear' })).toEqual(EMPTY_STATE);
  });

  it('takes no notice of what is late of an earlier taking', () => {
    const state = after(sorted(3, 2));
    const late: Report[] = [
      checked(LINES),
      ended(),
      { tell: 'general', run: 1, findings: [] },
      { tell: 'view', run: 1, view: viewOf() },
      { tell: 'ready' },
      { tell: 'json', run: 1, text: '' },
    ];
    for (const report of late) expect(changeState(state, report)).toEqual(state);
  });

  it('keeps what was checked when it is stopped, and can still look at it', () => {
    const stopped = after(sorted(3), checked(LINES.slice(0, 2)), {
      tell: 'ended',
      run: 2,
      isStopped: true,
      between: null,
    });
    expect(stopped).toMatchObject({ phase: 'stopped', total: 3, run: 2 });
    const looking = changeState(stopped, { did: 'look', id: 1 });
    expect(changeState(looking, { tell: 'view', run: 2, view: viewOf({ id: 1 }) }).view?.id).toBe(1);
    const early = after({ did: 'take' }, { tell: 'ended', run: 2, isStopped: true, between: null });
    expect(early).toEqual(EMPTY_STATE);
  });

  it('looks at one capture and back at the list as it was', () => {
    const done = after(sorted(3), checked(LINES), ended(), { did: 'leaf', choice: 'doubtful', page: 2 });
    const looking = [
      { did: 'look', id: 2 } as const,
      { tell: 'view', run: 1, view: viewOf({ id: 2 }) } as const,
    ].reduce(changeState, done);
    expect(looking).toMatchObject({ shown: 2, view: { id: 2 }, choice: 'doubtful', page: 2 });
    expect(changeState(looking, { did: 'look', id: null })).toEqual(done);
  });

  it('says sheet findings and failures', () => {
    const finding = { ...viewOf().check.findings[0]!, message: 'a row' };
    expect(after(sorted(0), { tell: 'general', run: 1, findings: [finding] }).general).toEqual([finding]);
    expect(after({ tell: 'failed', message: 'why' })).toMatchObject({ phase: 'failed', failure: 'why' });
  });
});

describe('sayStatus', () => {
  const base = { ...EMPTY_STATE, lines: LINES, total: 30, counts: { sound: 1, doubtful: 1, 'read-again': 1 } };

  it('says progress in tenths, so that a screen reader is not flooded', () => {
    expect(sayStatus({ ...base, phase: 'sorting' })).toBe('Looking at the files.');
    expect(sayStatus({ ...base, phase: 'checking' })).toBe('Checking: 10 percent.');
    expect(sayStatus({ ...base, phase: 'checking', total: 31 })).toBe('Checking: 0 percent.');
    expect(sayStatus({ ...base, phase: 'checking', total: 0 })).toBe('');
  });

  it('says the answer: of one capture its headline, of many the counts', () => {
    expect(sayStatus({ ...base, phase: 'done' })).toBe('3 captures: 1 to read again, 1 doubtful, 1 sound.');
    expect(sayStatus({ ...base, phase: 'done', shown: 1 })).toBe(LINES[1]!.headline);
    expect(sayStatus({ ...base, phase: 'done', total: 1, lines: LINES.slice(0, 1) })).toBe(LINES[0]!.headline);
    expect(sayStatus({ ...base, phase: 'stopped' })).toBe('Stopped. 3 captures: 1 to read again, 1 doubtful, 1 sound.');
  });

  it('says nothing where there is nothing to say, and asks for captures where there are only sheets', () => {
    expect(sayStatus(EMPTY_STATE)).toBe('');
    expect(sayStatus({ ...base, phase: 'failed' })).toBe('');
    expect(sayStatus({ ...EMPTY_STATE, phase: 'done' })).toBe('');
    const sheets = [{ file: 'm.csv', kind: 'machines', rows: 1 }] as const;
    expect(sayStatus({ ...EMPTY_STATE, phase: 'done', sheets })).toContain('Now choose captures');
    const unused = [{ file: 'counts.csv', kind: null, rows: 0 }];
    expect(sayStatus({ ...EMPTY_STATE, phase: 'done', sheets: unused })).toContain('Nothing here is a capture');
  });
});

describe('pageOf', () => {
  const lines = Array.from({ length: 2 * PAGE_LENGTH + 1 }, (_, i) => lineOf(i, i % 2 === 0 ? 'sound' : 'read-again'));

  it('puts the worst first, and keeps their order', () => {
    const first = pageOf(lines, 'all', 0);
    expect(first.shown.every(({ verdict }) => verdict === 'read-again')).toBe(true);
    expect(first.shown.map(({ id }) => id)).toEqual(first.shown.map((_, i) => 2 * i + 1));
    expect(first).toMatchObject({ page: 0, pages: 3, from: 0, total: lines.length });
    expect(pageOf(lines, 'all', 2)).toMatchObject({ page: 2, from: 2 * PAGE_LENGTH, shown: [{ id: 2 * PAGE_LENGTH }] });
  });

  it('shows only what is asked for, and the last page for one beyond it', () => {
    expect(pageOf(lines, 'sound', 9)).toMatchObject({ page: 1, pages: 2, total: PAGE_LENGTH + 1 });
    expect(pageOf(lines, 'doubtful', 3)).toEqual({ shown: [], page: 0, pages: 1, from: 0, total: 0 });
  });
});

describe('Store', () => {
  it('tells of several changes in one go once, with the last value', async () => {
    const told: number[] = [];
    const store = new Store(0, (value) => told.push(value));
    store.set(1);
    store.set(2);
    expect([store.value, told]).toEqual([2, []]);
    await Promise.resolve();
    expect(told).toEqual([2]);
    store.set(3);
    await Promise.resolve();
    expect(told).toEqual([2, 3]);
  });
});
