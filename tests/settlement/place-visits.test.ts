import { describe, expect, it } from 'vitest';
import type { CountRow } from '../../src/model/index.js';
import { matchCounts } from '../../src/settlement/match-counts.js';
import { listUnplaced, placeVisits } from '../../src/settlement/place-visits.js';
import { makeCount, readsOf, type Shown } from './scenario.js';

const service = { reason: 'service' } as const;
const at = (when: string, box: number, more: Partial<Shown> = {}): Shown => ({ at: `2026-11-${when}`, box, ...more });

function place(captures: Record<string, Shown>, counts: readonly CountRow[]) {
  const reads = readsOf({ captures });
  const matched = matchCounts(counts, reads, 60);
  const placed = placeVisits(matched, reads, 60);
  return {
    placed: placed.map(({ read, counts: bags, match }) => [
      read.taken.file,
      bags.length,
      match === null ? 'silent' : match.matchedBy,
    ]),
    unplaced: listUnplaced(matched, placed, reads, 60).map(({ counts: bags, match, span }) => [
      match.read?.taken.file ?? null,
      bags.length,
      span.latest.slice(8, 16),
    ]),
  };
}

describe('placeVisits', () => {
  it('puts bags and service reads in the order of the machine', () => {
    const captures = {
      a: at('20T10:00', 1, service),
      b: at('21T10:00', 2),
      c: at('22T10:00', 3),
      d: at('23T10:00', 4, service),
    };
    expect(place(captures, [makeCount('M1', '2026-11-22')]).placed).toEqual([
      ['a', 0, null],
      ['c', 1, 'date'],
      ['d', 0, null],
    ]);
  });

  it('puts bags together that claim one capture', () => {
    const bags = [makeCount('M1', '2026-11-20'), makeCount('M1', '2026-11-20T10:00')];
    expect(place({ a: at('20T10:00', 1) }, bags).placed).toEqual([['a', 2, 'date']]);
  });

  it('takes service reads of one visit for one: the one with the bag, else the first', () => {
    const twice = { a: at('20T10:00', 1, service), b: at('20T10:05', 1, service), c: at('20T10:10', 1, service) };
    expect(place(twice, [makeCount('M1', '2026-11-20T10:05')]).placed).toEqual([['b', 1, 'time']]);
    expect(place(twice, []).placed).toEqual([['a', 0, null]]);
    const apart = { ...twice, c: at('20T10:10', 9, service) };
    expect(place(apart, []).placed.map(([file]) => file)).toEqual(['a', 'c']);
  });

  it('claims no service read as uncounted that may be the visit of a bag', () => {
    const captures = { a: at('20T09:00', 1, service), b: at('20T15:00', 2, service) };
    const { placed, unplaced } = place(captures, [makeCount('M1', '2026-11-20')]);
    expect(placed).toEqual([
      ['a', 0, 'silent'],
      ['b', 0, 'silent'],
    ]);
    // Behind both, so that neither is settled with it.
    expect(unplaced).toEqual([[null, 1, '20T15:00']]);
  });
});

describe('listUnplaced', () => {
  it('lists bags without a capture by time; those with no more than a date as late as that day can be', () => {
    const bags = [makeCount('M1', '2026-11-22'), makeCount('M1', '2026-11-21T08:00')];
    expect(place({ a: at('20T10:00', 1) }, bags).unplaced).toEqual([
      [null, 1, '21T08:00'],
      [null, 1, '22T23:59'],
    ]);
  });

  it('lists a bag whose capture has faults by the time of that capture', () => {
    expect(place({ a: at('20T17:30', 1, { damaged: true }) }, [makeCount('M1', '2026-11-20')]).unplaced).toEqual([
      ['a', 1, '20T17:30'],
    ]);
  });

  it('lists faulty captures of visits that no bag claims', () => {
    const bad = { ...service, damaged: true };
    expect(place({ a: at('20T10:00', 1), b: at('21T10:00', 2, bad) }, []).unplaced).toEqual([['b', 0, '21T10:00']]);
  });

  it('leaves out a faulty capture beside the capture of another visit, and a second one beside the first', () => {
    const bad = { ...service, damaged: true };
    const beside = { a: at('20T10:00', 1, service), b: at('20T09:58', 1, bad) };
    expect(place(beside, []).unplaced).toEqual([]);
    const claimed = { b: at('21T10:00', 2, bad), c: at('21T10:05', 3, bad) };
    expect(place(claimed, [makeCount('M1', '2026-11-21T10:00')]).unplaced).toEqual([['b', 1, '21T10:00']]);
    expect(place(claimed, []).unplaced).toEqual([['b', 0, '21T10:00']]);
    // Two faulty captures that one bag may belong to.
    expect(
      place({ b: claimed.b, c: { ...claimed.c, at: '2026-11-21T15:00' } }, [makeCount('M1', '2026-11-21')]).unplaced,
    ).toEqual([[null, 1, '21T15:00']]);
  });

  it('leaves out faulty captures that are not known to be of a visit', () => {
    const bad = { damaged: true };
    expect(place({ a: at('20T10:00', 1, { ...bad, reason: 'scheduled' }) }, []).unplaced).toEqual([]);
    expect(place({ a: at('20T10:00', 1, bad), b: at('22T10:00', 1, service) }, []).unplaced).toEqual([]);
    expect(place({ a: at('20T10:00', 1, bad) }, []).unplaced).toEqual([]);
    expect(place({ a: { ...at('20T10:00', 1, { ...bad, ...service }), at: '0000-00-00T99:99' } }, []).unplaced).toEqual(
      [],
    );
  });
});
