import { describe, expect, it } from 'vitest';
import { findLastFill } from '../../src/attention/index.js';
import type { TakenRead } from '../../src/interval/index.js';
import type { CaptureListRow } from '../../src/model/index.js';
import type { Profile } from '../../src/profile/index.js';
import type { Visit } from '../../src/settlement/index.js';
import { Roster } from '../../src/sheets/index.js';
import { takeSegments } from '../support/taken.js';
import { evidenceOf, type Known, listRow, read, service, visit } from './stock-reads.js';

describe('findLastFill', () => {
  const reads = [
    read(1, { vends: { 11: 100 } }, service),
    read(2, { vends: { 11: 104 } }, { reason: 'scheduled' }),
    read(3, { vends: { 11: 105 } }, service),
    read(4, { vends: { 11: 106 } }),
  ];
  const find = (known: Known = {}, of: readonly TakenRead[] = reads) => findLastFill(evidenceOf(of, known));

  it('is the last service read', () => {
    expect(find()).toEqual({ position: 2, basis: 'service-read', unreadVisitAt: null });
  });

  it('is what the captures list says, either way', () => {
    const said = (...rows: CaptureListRow[]) => find({ roster: new Roster({ capturesList: rows }) });
    expect(said(listRow('3.dex', false))).toMatchObject({ position: 0, basis: 'service-read' });
    expect(said(listRow('3.dex', false), listRow('2.dex', true))).toMatchObject({ position: 1, basis: 'list' });
    expect(said(listRow('3.dex', null))).toMatchObject({ position: 2, basis: 'service-read' });
    expect(said(listRow('4.dex', true))).toMatchObject({ position: 3, basis: 'list' });
  });

  it('is a read whose bag was counted', () => {
    expect(find({ visits: [visit('2026-11-04T10:00:00', '4.dex')] })).toMatchObject({ position: 3, basis: 'bag' });
  });

  it('is a read that cleared the counters of a machine which clears on service reads only', () => {
    const profile: Profile = { name: 'p', resets: 'service-read' };
    const shown = (day: number, total: number, since: number, reason: TakenRead['reason'] = null) =>
      read(
        day,
        { vends: { 11: total }, segments: [`VA1*${total * 150}*${total}*${since * 150}*${since}`] },
        { profile, reason },
      );
    const cleared = [shown(1, 100, 7), shown(2, 104, 4), shown(3, 106, 6)];
    expect(find({}, cleared)).toMatchObject({ position: 0, basis: 'service-read' });
    // What the list says of it counts for more than what it did.
    expect(find({}, [shown(1, 100, 7, 'scheduled'), ...cleared.slice(1)])).toMatchObject({ position: -1, basis: null });
    const without = cleared.map((taken) => ({ ...taken, profile: null }));
    expect(find({}, without)).toMatchObject({ position: -1 });
  });

  it('knows of faulty service reads, unless a usable copy came or the list says that nothing was filled', () => {
    const bad = (day: number, file: string, reason: TakenRead['reason'] = 'service') =>
      read(day, { vends: { 11: 1 } }, { file, reason });
    const at = (faulty: readonly TakenRead[], roster = new Roster()) => find({ faulty, roster }).unreadVisitAt;
    expect(at([bad(5, 'bad.dex'), bad(4, 'bad2.dex')])).toBe('2026-11-05T10:00:00');
    expect(at([bad(2, 'old.dex')])).toBeNull();
    expect(at([bad(5, '4.dex')])).toBeNull();
    expect(at([bad(5, 'bad.dex', 'scheduled')])).toBeNull();
    expect(at([bad(5, 'bad.dex')], new Roster({ capturesList: [listRow('bad.dex', false)] }))).toBeNull();
    const timeless = takeSegments(['ID1*S1*M****A1'], { file: 'none.dex', ...service });
    expect(at([timeless])).toBeNull();
  });

  it('does not take a visit without a bag, or a time, for one', () => {
    const uncounted = { visitedAt: '2026-11-05', capture: null, counts: [] } as unknown as Visit;
    const timeless = { visitedAt: null, capture: null, counts: [{}] } as unknown as Visit;
    expect(find({ visits: [uncounted, timeless] }).unreadVisitAt).toBeNull();
  });
});
