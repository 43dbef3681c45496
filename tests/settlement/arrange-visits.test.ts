import { describe, expect, it } from 'vitest';
import type { CountRow } from '../../src/model/index.js';
import { arrangeVisits } from '../../src/settlement/arrange-visits.js';
import { makeCount, readsOf, type Shown } from './scenario.js';

const service = { reason: 'service' } as const;
const at = (when: string, box: number, more: Partial<Shown> = {}): Shown => ({ at: `2026-11-${when}`, box, ...more });
const bag = (name: string, when: string, more: Partial<CountRow> = {}): CountRow => ({
  ...makeCount('M1', `2026-11-${when}`, { bag: name }),
  ...more,
});

const bagsOf = (counts: readonly CountRow[]): string => counts.map((count) => count.bag).join('+');
const nameWith = (with_: CountRow | 'next'): string | null => (with_ === 'next' ? 'next' : with_.bag);

/** Collections in short: the capture, what it is counted from and up to, and what belongs to it. */
function arrange(captures: Record<string, Shown>, counts: readonly CountRow[]) {
  const reads = readsOf({ captures });
  const fileAt = (position: number): string | null => reads.usable.all[position]?.taken.file ?? null;
  return arrangeVisits(counts, reads, 60).map((collection) => ({
    bags: collection.counts.map((count) => count.bag).join('+'),
    at: collection.match.read?.taken.file ?? null,
    from: fileAt(collection.opening),
    upTo: fileAt(collection.known),
    ...(collection.joined.length > 0 ? { joined: collection.joined.map((count) => count.bag).join('+') } : {}),
    ...(collection.settledWith === null ? {} : { with: nameWith(collection.settledWith) }),
    ...(collection.unclearReads > 0 ? { unclearReads: collection.unclearReads } : {}),
    ...(collection.unknownBags.length > 0
      ? { unknown: collection.unknownBags.map(({ taken }) => taken.file).join('+') }
      : {}),
    ...(collection.isOrderUnclear ? { isOrderUnclear: true } : {}),
    ...(collection.looseBags.length > 0 ? { loose: bagsOf(collection.looseBags) } : {}),
    ...(collection.rivals.length > 0 ? { rivals: bagsOf(collection.rivals) } : {}),
  }));
}

const WEEK = {
  mon: at('16T10:00', 100, service),
  tue: at('17T22:00', 200, { reason: 'scheduled' }),
  wed: at('18T10:00', 300, service),
  fri: at('20T10:00', 500, service),
};

describe('arrangeVisits', () => {
  it('counts each visit from the last collection, not from the last capture', () => {
    expect(arrange(WEEK, [bag('B3', '18T10:00'), bag('B5', '20T10:00')])).toEqual([
      { bags: '', at: 'mon', from: null, upTo: 'mon' },
      { bags: 'B3', at: 'wed', from: 'mon', upTo: 'wed' },
      { bags: 'B5', at: 'fri', from: 'wed', upTo: 'fri' },
    ]);
  });

  it('counts on from a service read without a bag', () => {
    expect(arrange(WEEK, [bag('B5', '20T10:00')]).slice(1)).toEqual([
      { bags: '', at: 'wed', from: 'mon', upTo: 'wed' },
      { bags: 'B5', at: 'fri', from: 'wed', upTo: 'fri' },
    ]);
  });

  it('joins a bag without a capture to the next visit, known up to the last read before it', () => {
    const { wed: _, ...lost } = WEEK;
    expect(arrange(lost, [bag('B3', '18T10:00'), bag('B5', '20T10:00')])).toEqual([
      { bags: '', at: 'mon', from: null, upTo: 'mon' },
      { bags: 'B3', at: null, from: 'mon', upTo: 'tue', with: 'B5' },
      { bags: 'B5', at: 'fri', from: 'mon', upTo: 'fri', joined: 'B3' },
    ]);
  });

  it('joins several, and each to one visit only', () => {
    const found = arrange({ mon: WEEK.mon, fri: WEEK.fri, sun: at('22T10:00', 900, service) }, [
      bag('B2', '17T10:00'),
      bag('B3', '18T10:00'),
      bag('B5', '20T10:00'),
      bag('B6', '21T10:00'),
      bag('B7', '22T10:00'),
    ]);
    expect(found.map(({ bags, joined = '' }) => `${bags}<${joined}`)).toEqual([
      '<',
      'B2<',
      'B3<B2',
      'B5<B2+B3',
      'B6<',
      'B7<B6',
    ]);
  });

  it('leaves the last bag without a capture alone', () => {
    expect(arrange({ mon: WEEK.mon, tue: WEEK.tue }, [bag('B3', '18T10:00')]).at(-1)).toEqual({
      bags: 'B3',
      at: null,
      from: 'mon',
      upTo: 'tue',
      with: 'next',
    });
  });

  it('knows nothing up to a bag with nothing before it', () => {
    expect(arrange({ fri: WEEK.fri }, [bag('B3', '18T10:00')])[0]).toEqual({
      bags: 'B3',
      at: null,
      from: null,
      upTo: null,
    });
  });

  it('joins a bag whose capture has faults, and knows it no further than the read before', () => {
    const harmed = { ...WEEK, wed: { ...WEEK.wed, damaged: true } };
    expect(arrange(harmed, [bag('B3', '18T10:00'), bag('B5', '20T10:00')]).slice(1)).toEqual([
      { bags: 'B3', at: 'wed', from: 'mon', upTo: 'tue', with: 'B5' },
      { bags: 'B5', at: 'fri', from: 'mon', upTo: 'fri', joined: 'B3' },
    ]);
  });

  it('says of a later visit that there was one before with no bag and no usable capture', () => {
    const harmed = { ...WEEK, wed: { ...WEEK.wed, damaged: true } };
    expect(arrange(harmed, [bag('B5', '20T10:00')]).slice(1)).toEqual([
      { bags: '', at: 'wed', from: 'mon', upTo: 'tue' },
      { bags: 'B5', at: 'fri', from: 'mon', upTo: 'fri', unknown: 'wed' },
    ]);
  });

  it('settles no bag on a service read that has none of its own', () => {
    const { wed: _, ...lost } = WEEK;
    expect(arrange(lost, [bag('B3', '18T10:00')]).slice(1)).toEqual([
      { bags: 'B3', at: null, from: 'mon', upTo: 'tue', with: 'next' },
      { bags: '', at: 'fri', from: 'mon', upTo: 'fri', joined: 'B3' },
    ]);
  });

  it('counts from one of several service reads that a bag may belong to, and settles that bag on none', () => {
    const captures = { mon: WEEK.mon, a: at('18T08:00', 200, service), b: at('18T18:00', 300, service), fri: WEEK.fri };
    expect(arrange(captures, [bag('B3', '18'), bag('B5', '20T10:00')])).toEqual([
      { bags: '', at: 'mon', from: null, upTo: 'mon' },
      { bags: 'B3', at: null, from: null, upTo: null },
      { bags: 'B5', at: 'fri', from: 'b', upTo: 'fri' },
    ]);
  });

  it('settles a bag that may belong to either of two reads on the visit after both', () => {
    const captures = {
      mon: at('16T10:00', 100),
      a: at('18T08:00', 200),
      b: at('18T18:00', 300),
      fri: at('20T10:00', 500),
    };
    const found = arrange(captures, [bag('B1', '16T10:00'), bag('B3', '18'), bag('B5', '20T10:00')]);
    expect(found.slice(1)).toEqual([
      { bags: 'B3', at: null, from: 'mon', upTo: 'a', with: 'B5' },
      { bags: 'B5', at: 'fri', from: 'mon', upTo: 'fri', joined: 'B3', unclearReads: 2 },
    ]);
  });

  it('stops where times do not rise: a read with a wrong clock may be later', () => {
    const captures = {
      mon: WEEK.mon,
      tue: WEEK.tue,
      reset: { ...at('19T10:00', 400), at: '2001-01-01T00:00', reason: 'scheduled' as const },
      fri: WEEK.fri,
    };
    expect(arrange(captures, [bag('B3', '18T10:00'), bag('B5', '20T10:00')])[1]).toMatchObject({
      bags: 'B3',
      upTo: 'tue',
    });
  });

  describe('where nothing says why captures were taken', () => {
    const plain = { a: at('16T10:00', 100), b: at('18T10:00', 300), c: at('20T10:00', 500) };

    it('counts from no capture that merely stands before', () => {
      expect(arrange(plain, [bag('B5', '20T10:00')])).toEqual([{ bags: 'B5', at: 'c', from: null, upTo: 'c' }]);
    });

    it('counts from the bag before, and how many captures are unclear', () => {
      expect(arrange(plain, [bag('B1', '16T10:00'), bag('B5', '20T10:00')]).at(-1)).toEqual({
        bags: 'B5',
        at: 'c',
        from: 'a',
        upTo: 'c',
        unclearReads: 1,
      });
    });

    it('joins nothing where nothing is known to count from', () => {
      expect(arrange(plain, [bag('B4', '19T10:00'), bag('B5', '20T10:00')])).toEqual([
        { bags: 'B4', at: null, from: null, upTo: null },
        { bags: 'B5', at: 'c', from: null, upTo: 'c' },
      ]);
    });

    it('takes no faulty capture for a visit', () => {
      const harmed = { ...plain, bad: at('19T10:00', 400, { damaged: true }) };
      expect(arrange(harmed, [bag('B3', '18T10:00'), bag('B5', '20T10:00')])).toEqual([
        { bags: 'B3', at: 'b', from: null, upTo: 'b' },
        { bags: 'B5', at: 'c', from: 'b', upTo: 'c' },
      ]);
    });
  });

  describe('where a bag may lie on either side of a collection', () => {
    const captures = {
      mon: WEEK.mon,
      a: at('18T08:00', 200),
      b: at('18T15:00', 300),
      night: at('18T23:30', 400),
      fri: WEEK.fri,
    };

    it('leaves it loose, and does not settle that collection and the one after it', () => {
      expect(arrange(captures, [bag('B3', '18'), bag('B4', '18T15:00'), bag('B5', '20T10:00')])).toEqual([
        { bags: '', at: 'mon', from: null, upTo: 'mon' },
        { bags: 'B4', at: 'b', from: 'mon', upTo: 'b', unclearReads: 1, loose: 'B3' },
        { bags: 'B3', at: null, from: null, upTo: null, loose: 'B3' },
        { bags: 'B5', at: 'fri', from: 'b', upTo: 'fri', unclearReads: 1, loose: 'B3' },
      ]);
    });

    it('so for a bag of a date without a time, and without a capture', () => {
      const listed = {
        mon: WEEK.mon,
        b: { ...captures.b, ...service, receivedAt: '2026-11-18T15:00:00' },
        fri: WEEK.fri,
      };
      const found = arrange(listed, [bag('B3', '18', { capture: 'b' }), bag('B4', '18T10:00'), bag('B5', '20T10:00')]);
      // The first is named on the capture, the second has none within the hour.
      expect(found.slice(1).map(({ bags, loose = '', joined = '' }) => `${bags}<${joined}|${loose}`)).toEqual([
        'B4<|',
        'B3<B4|',
        'B5<|',
      ]);
    });

    it('counts from no capture that two bags claim: one of them may be later', () => {
      const found = arrange(WEEK, [bag('B3', '18T10:00'), bag('B4', '18T10:30'), bag('B5', '20T10:00')]);
      expect(found.slice(1)).toEqual([
        { bags: 'B3+B4', at: 'wed', from: 'mon', upTo: 'wed' },
        { bags: 'B5', at: 'fri', from: 'wed', upTo: 'fri', rivals: 'B3+B4' },
      ]);
    });
  });

  it('tells where the times of visits say another order than the counters, and of what is counted from there', () => {
    const captures = {
      a: at('16T10:00', 100, service),
      b: at('20T10:00', 200, service),
      c: at('18T10:00', 300, service),
      d: at('23T10:00', 400, service),
      e: at('25T10:00', 500, service),
    };
    const found = arrange(captures, [bag('B3', '18T10:00'), bag('B5', '20T10:00')]);
    const unclear = found.filter(({ isOrderUnclear }) => isOrderUnclear).map(({ at: file }) => file);
    expect(unclear.sort()).toEqual(['b', 'c', 'd']);
  });

  it("goes by the sheet's day where a capture came late or has a wrong clock", () => {
    const captures = {
      mon: WEEK.mon,
      wed: { ...WEEK.wed, receivedAt: '2026-11-21T10:00:00', bag: 'B3' },
      fri: WEEK.fri,
    };
    const found = arrange(captures, [bag('B2', '17T10:00'), bag('B3', '18T10:00'), bag('B5', '20T10:00')]);
    expect(found.slice(1)).toEqual([
      { bags: 'B2', at: null, from: 'mon', upTo: 'mon', with: 'B3' },
      { bags: 'B3', at: 'wed', from: 'mon', upTo: 'wed', joined: 'B2' },
      { bags: 'B5', at: 'fri', from: 'wed', upTo: 'fri' },
    ]);
  });

  it('places a service read without any time by the machine order alone', () => {
    const captures = { mon: WEEK.mon, x: { ...WEEK.wed, at: '0000-00-00T99:99' }, fri: WEEK.fri };
    expect(arrange(captures, [bag('B5', '20T10:00')]).map(({ at: file }) => file)).toContain('x');
  });
});
