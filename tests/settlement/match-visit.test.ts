import { describe, expect, it } from 'vitest';
import type { CountRow } from '../../src/model/index.js';
import { matchVisit } from '../../src/settlement/match-visit.js';
import { makeCount, readsOf, type Scenario, type Shown } from './scenario.js';

type Captures = Readonly<Record<string, Shown>>;

/** How a bag is matched, in short: by what, and to which file or files. */
function match(
  captures: Captures,
  when: string,
  given: Partial<CountRow> = {},
  more: Partial<Scenario> = {},
  window = 60,
): string {
  const found = matchVisit({ ...makeCount('M1', when), ...given }, readsOf({ captures, ...more }), window);
  if (found.candidates.length > 0) return `ask: ${found.candidates.map(({ taken }) => taken.file).join(', ')}`;
  if (found.read === null) return 'none';
  return `${found.matchedBy}${found.isOutsideWindow ? ' (outside the window)' : ''}: ${found.read.taken.file}`;
}

const A: Shown = { at: '2026-11-24T10:00', box: 100 };
const B: Shown = { at: '2026-11-24T10:40', box: 200 };
const C: Shown = { at: '2026-11-25T10:00', box: 300 };
const service = { reason: 'service' } as const;
const scheduled = { reason: 'scheduled' } as const;

describe('matchVisit: by what is named on both', () => {
  it('goes by the capture named, whatever the time says', () => {
    expect(match({ a: A, b: B, c: C }, '2026-11-24T10:40', { capture: 'a' })).toBe('bag: a');
    expect(match({ 'in/a.dex': A, b: B }, '2026-11-24T10:40', { capture: 'D:\\day\\a.dex' })).toBe('bag: in/a.dex');
  });

  it('goes by the bag that the captures list puts to a capture', () => {
    expect(match({ a: { ...A, bag: 'B1' }, b: B }, '2026-11-24T10:40', { bag: 'B1' })).toBe('bag: a');
  });

  it('goes by the name of a copy that was set aside', () => {
    expect(match({ a: A, 'again.dex': A, b: B }, '2026-11-24T10:40', { capture: 'again.dex' })).toBe('bag: a');
  });

  it('goes on by time where what is named is not there', () => {
    expect(match({ a: A, b: B }, '2026-11-24T10:00', { capture: 'x', bag: 'B1' })).toBe('time: a');
  });

  it('goes by the date where captures of several dates have the same bag', () => {
    expect(match({ a: { ...A, bag: '1' }, c: { ...C, bag: '1' } }, '2026-11-25', { bag: '1' })).toBe('bag: c');
    expect(match({ a: { ...A, bag: '1' }, c: { ...C, bag: '1' } }, '2026-11-26', { bag: '1' })).toBe('ask: a, c');
  });

  it('asks where bag and capture name two', () => {
    expect(match({ a: { ...A, bag: 'B1' }, b: B }, '2026-11-24T10:00', { capture: 'b', bag: 'B1' })).toBe('ask: b, a');
  });
});

describe('matchVisit: by time', () => {
  it('takes the nearest capture', () => {
    expect(match({ a: A, b: B }, '2026-11-24T10:19')).toBe('time: a');
    expect(match({ a: A, b: B }, '2026-11-24T10:21')).toBe('time: b');
  });

  it('takes none outside the window, 60 minutes to either side unless said otherwise', () => {
    expect(match({ a: A }, '2026-11-24T11:00')).toBe('time: a');
    expect(match({ a: A }, '2026-11-24T09:00')).toBe('time: a');
    expect(match({ a: A }, '2026-11-24T11:01')).toBe('none');
    expect(match({ a: A }, '2026-11-24T10:06', {}, {}, 5)).toBe('none');
  });

  it('asks where two are equally near, in whole minutes as a clock shows them', () => {
    expect(match({ a: A, b: B }, '2026-11-24T10:20')).toBe('ask: a, b');
    const seconds = { a: { ...A, receivedAt: '2026-11-24T10:00:05' }, b: { ...B, receivedAt: '2026-11-24T10:00:55' } };
    expect(match(seconds, '2026-11-24T10:00')).toBe('ask: a, b');
  });

  it('does not ask which of two reads of one visit it is: nothing moved in between', () => {
    expect(match({ a: A, b: { ...A, at: '2026-11-24T10:04' } }, '2026-11-24T10:02')).toBe('time: b');
  });

  it('takes a service read in the window before a nearer one that is none', () => {
    expect(match({ a: { ...A, ...scheduled }, b: { ...B, ...service } }, '2026-11-24T10:05')).toBe('time: b');
  });

  it('takes another read where there is no service read: no one can buy while the door is open', () => {
    expect(match({ a: { ...A, ...scheduled } }, '2026-11-24T10:05')).toBe('time: a');
  });

  it('goes by the time received rather than by a clock that is wrong', () => {
    const wrong = { a: { at: '2001-01-01T00:00', receivedAt: '2026-11-24T10:00:20' } };
    expect(match(wrong, '2026-11-24T10:00')).toBe('time: a');
    expect(match({ a: { ...A, receivedAt: '2026-11-24T15:00:00' } }, '2026-11-24T10:00')).toBe('none');
  });

  it('reaches across midnight', () => {
    expect(match({ a: { at: '2026-11-23T23:58' } }, '2026-11-24T00:03')).toBe('time: a');
    expect(match({ a: { at: '2026-11-24T00:00' } }, '2026-11-24T00:00')).toBe('time: a');
  });

  it('finds none for a read without a time', () => {
    expect(match({ a: { at: '0000-00-00T99:99' } }, '2026-11-24T10:00')).toBe('none');
  });
});

describe('matchVisit: by date', () => {
  it('takes the only capture of the day', () => {
    expect(match({ a: A, c: C }, '2026-11-24')).toBe('date: a');
    expect(match({ c: C }, '2026-11-24')).toBe('none');
  });

  it('takes the service capture among several', () => {
    expect(match({ a: A, b: { ...B, ...service } }, '2026-11-24')).toBe('date: b');
  });

  it('asks where several fit equally well', () => {
    expect(match({ a: A, b: B }, '2026-11-24')).toBe('ask: a, b');
    expect(
      match({ a: { ...A, ...service }, b: { ...B, ...service }, x: { ...B, at: '2026-11-24T22:00' } }, '2026-11-24'),
    ).toBe('ask: a, b');
  });

  it('takes no capture that is known to be no service read: what was bought until then was not in the bag', () => {
    expect(match({ a: { ...A, at: '2026-11-24T22:00', ...scheduled } }, '2026-11-24')).toBe('none');
    expect(match({ a: { ...A, reason: 'on demand' } }, '2026-11-24')).toBe('none');
  });

  it('falls back on the one service read of the date where the sheet has a time and the window nothing', () => {
    expect(match({ a: { ...A, ...service } }, '2026-11-24T15:00')).toBe('date (outside the window): a');
    expect(match({ a: A }, '2026-11-24T15:00')).toBe('none');
    expect(match({ a: { ...A, ...service }, c: { ...C, ...service } }, '2026-11-26T15:00')).toBe('none');
  });

  it('asks where the date has two service reads', () => {
    expect(match({ a: { ...A, ...service }, b: { ...B, ...service } }, '2026-11-24T15:00')).toBe('ask: a, b');
  });
});

describe('matchVisit: faulty captures', () => {
  const bad = { ...A, damaged: true };

  it('takes the capture with faults where there is no other', () => {
    expect(match({ a: bad }, '2026-11-24T10:05')).toBe('time: a');
    expect(match({ a: bad }, '2026-11-24')).toBe('date: a');
    expect(match({ a: bad }, '2026-11-26', { capture: 'a' })).toBe('bag: a');
  });

  it('takes the one read again beside it', () => {
    expect(match({ a: bad, b: { ...A, at: '2026-11-24T10:06' } }, '2026-11-24T10:00')).toBe('time: b');
    expect(match({ a: bad, b: { ...A, at: '2026-11-24T10:06' } }, '2026-11-24')).toBe('date: b');
    expect(match({ a: bad, b: { ...A, at: '2026-11-24T10:06' } }, '2026-11-24', { capture: 'a' })).toBe('time: b');
  });

  it('takes no scheduled read for one read again', () => {
    expect(match({ a: { ...bad, ...service }, b: { ...B, ...scheduled } }, '2026-11-24T10:00')).toBe('time: a');
    expect(match({ a: { ...bad, ...service }, b: { ...B, ...scheduled } }, '2026-11-24', { capture: 'a' })).toBe(
      'bag: a',
    );
  });

  it('takes a nearer scheduled read before a faulty one further away', () => {
    expect(match({ a: { ...bad, ...service }, b: { ...B, ...scheduled } }, '2026-11-24T10:39')).toBe('time: b');
  });

  it('takes a usable one that is named before a faulty one, and a faulty one at the visit before a usable one of the day', () => {
    expect(match({ a: bad, c: C }, '2026-11-24T10:00', { capture: 'c' })).toBe('bag: c');
    expect(match({ a: bad, b: { ...B, at: '2026-11-24T15:00', ...service } }, '2026-11-24T10:00')).toBe('time: a');
    expect(match({ a: { ...bad, at: '2026-11-24T15:00' }, b: B }, '2026-11-24T10:40')).toBe('time: b');
  });

  it('asks where a usable and a faulty one of the day may both be the visit', () => {
    expect(match({ a: bad, b: { ...B, at: '2026-11-24T15:00' } }, '2026-11-24')).toBe('ask: b, a');
  });

  it('asks where another capture of the date fits as well as one read again', () => {
    // A nightly read, cut short and tried again, is no better a visit than the capture of the day.
    const night = {
      a: A,
      cut: { at: '2026-11-24T23:29', box: 400, damaged: true },
      again: { at: '2026-11-24T23:31', box: 400 },
    };
    expect(match(night, '2026-11-24')).toBe('ask: a, again');
    expect(match({ ...night, again: { at: '2026-11-25T00:10', box: 400 } }, '2026-11-24')).toBe('ask: a, again');
    expect(match({ ...night, a: { ...A, ...service } }, '2026-11-24')).toBe('date: a');
    expect(match({ ...night, a: { ...A, damaged: true } }, '2026-11-24')).toBe('ask: again, a');
  });

  it('takes none beside a faulty one without a time', () => {
    expect(match({ a: { ...bad, at: '0000-00-00T99:99' }, b: B }, '2026-11-30', { capture: 'a' })).toBe('bag: a');
  });
});

describe('matchVisit: claims of other bags', () => {
  const reads = readsOf({ captures: { a: A, b: B } });
  const [a, b] = reads.usable.all as [never, never];
  const fileOf = (when: string, claims: Parameters<typeof matchVisit>[3]) =>
    matchVisit(makeCount('M1', when), reads, 60, claims).read?.taken.file ?? 'ask';

  it('leaves a capture that another bag names to it, among equally good ones', () => {
    expect(fileOf('2026-11-24', { byBag: new Set([a]), byBagOrTime: new Set([a]), dates: null })).toBe('b');
    expect(fileOf('2026-11-24T10:20', { byBag: new Set([b]), byBagOrTime: new Set([b]), dates: null })).toBe('a');
  });

  it('leaves one that another bag has by time to it where the date is all there is', () => {
    expect(fileOf('2026-11-24', { byBag: new Set(), byBagOrTime: new Set([a]), dates: null })).toBe('b');
    expect(fileOf('2026-11-24T10:20', { byBag: new Set(), byBagOrTime: new Set([a]), dates: null })).toBe('ask');
  });

  it('keeps to the only one that fits, claimed or not: then two bags claim it', () => {
    expect(fileOf('2026-11-24T09:50', { byBag: new Set([a]), byBagOrTime: new Set([a]), dates: null })).toBe('a');
    expect(fileOf('2026-11-24', { byBag: new Set([a, b]), byBagOrTime: new Set([a, b]), dates: null })).toBe('ask');
  });
});
