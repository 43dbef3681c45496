import { describe, expect, it } from 'vitest';
import { CaptureChecker, type CheckedRead } from '../../src/checks/check-capture.js';
import { checkInstall } from '../../src/checks/install.js';
import type { InstallCapture, InstallItem, InstallOptions } from '../../src/checks/install-item.js';
import type { PlanRow } from '../../src/model/index.js';
import type { Profile } from '../../src/profile/index.js';
import { readCaptures } from '../../src/read/index.js';
import { Roster } from '../../src/sheets/roster.js';
import { buildCapture, type CaptureOptions } from '../support/build-capture.js';
import { changeSegments, GOOD_SEGMENTS, machineRow } from '../support/check-cases.js';

const machine = machineRow({ hasCash: true, hasBills: true, hasCard: true, decimals: 2 });
const planned = (column: string, price: number): PlanRow => ({
  machine: 'M1',
  column,
  product: null,
  price,
  cardPrice: null,
  par: null,
  capacity: null,
  from: null,
  place: { file: 'plan.csv', row: 2 },
});
const plan = [planned('11', 150), planned('12', 150)];
const roster = new Roster({ machines: [machine], plan });
const receivedAt = '2026-11-24T10:17:00';

function take(segments: readonly string[], options = {}, capture: CaptureOptions = {}): InstallCapture {
  const checker = new CaptureChecker('x.dex', { roster, receivedAt, ...options });
  const file = readCaptures(buildCapture(segments, capture));
  const checked: CheckedRead = checker.addRead(file.reads[0]!);
  return { ...checked, fileFindings: file.findings };
}

const installs = (first: InstallCapture, second: InstallCapture | null = null, options: InstallOptions = {}) =>
  checkInstall(first, second, options);
const item = (check: ReturnType<typeof installs>, id: InstallItem['id']): InstallItem | undefined =>
  check.items.find((one) => one.id === id);

describe('install check, second capture', () => {
  const before = [...GOOD_SEGMENTS];
  /** The good capture after one vend of column 12, with the counters since the last reset as the first read left them. */
  const after = (pa2: string, put: readonly string[], more: readonly string[] = []): string[] => {
    const segments = changeSegments({ put, add: more });
    segments[segments.lastIndexOf('PA2*10*1500*2*300')] = pa2;
    return segments;
  };
  const cleared = ['CA2*2000*14*0*0', 'CA3*0*0*0*0*2500*1500*600*400', 'DA2*1000*6*0*0', 'PA2*10*1500*0*0'];
  const still = ['VA1*3000*20*0*0', ...cleared];
  const paid = after('PA2*11*1650*1*150', [
    ...cleared,
    'VA1*3150*21*150*1',
    'CA2*2150*15*150*1',
    'CA3*150*150*0*0*2650*1650*600*400',
  ]);
  const vend = (
    segments: readonly string[],
    options: InstallOptions = {},
    profile: Profile | null = null,
  ): ReturnType<typeof installs> => {
    const profiles = profile === null ? [] : [profile];
    const named = new Roster({ machines: [{ ...machine, profile: profile?.name ?? null }], plan, profiles });
    return installs(take(before, { roster: named }), take(segments, { roster: named }), options);
  };

  it('passes one paid vend after a service read', () => {
    const check = vend(paid, { column: '12', isService: true });
    expect(item(check, 'second-capture')).toMatchObject({ state: 'pass' });
    expect(item(check, 'vend-counted')).toMatchObject({ state: 'pass', detail: 'column 12 by 1 paid vend' });
    expect(item(check, 'reset')).toMatchObject({ state: 'pass', detail: 'they were cleared' });
    expect(check.passed).toBe(true);
  });

  it('passes one test vend whose segment was left out before', () => {
    const check = vend(after('PA2*10*1500*0*0', still, ['PA3*1*150*1*150']));
    expect(item(check, 'vend-counted')).toMatchObject({ state: 'pass', detail: 'column 12 by 1 test vend' });
  });

  it.each([
    ['no vend', after('PA2*10*1500*0*0', still), {}, 'no counter moved'],
    [
      'two vends',
      after('PA2*12*1800*2*300', ['VA1*3300*22*300*2']),
      {},
      'more than one vend was counted: column 12 by 2 paid vends',
    ],
    ['another column', paid, { column: '11' }, 'not column 11 but column 12 by 1 paid vend was counted'],
    [
      'a free vend',
      after('PA2*10*1500*0*0', still, ['PA4*1*150*1*150']),
      {},
      'column 12 by 1 free vend: a free vend, neither paid nor test',
    ],
    [
      'a counter that went back',
      after('PA2*9*1350*0*0', still),
      {},
      'more than one vend was counted: column 12 went back by 1 (paid)',
    ],
  ])('does not pass %s', (_, segments, options, detail) => {
    expect(item(vend(segments, options), 'vend-counted')).toMatchObject({ state: 'missing', detail });
  });

  it('can not judge without lifetime counters, or where a segment came out of nowhere', () => {
    const silent = changeSegments({}).map((segment) => (segment.startsWith('PA2') ? 'PA2***2*300' : segment));
    expect(item(installs(take(silent), take(silent)), 'vend-counted')).toMatchObject({ state: 'not-known' });
    const late = after('PA2*11*1650*1*150', ['VA1*3150*21*150*1'], ['PA3*57*0*1*0']);
    expect(item(vend(late), 'vend-counted')).toMatchObject({ state: 'pass', detail: 'column 12 by 1 paid vend' });
  });

  it('wants both captures of one machine', () => {
    const second = take(changeSegments({ put: ['ID1*SN1*M****A2'] }));
    expect(item(installs(take(before), second), 'vend-counted')).toMatchObject({
      detail: 'the second capture is of another machine',
    });
    const bySerial = changeSegments({ put: ['ID1*SN2*M'] });
    expect(item(installs(take(before), take(bySerial)), 'vend-counted')).toMatchObject({ state: 'missing' });
  });

  it('knows columns only the second capture has, and leaves them out', () => {
    const more = after('PA2*11*1650*1*150', ['VA1*3150*21*150*1'], ['PA1*13*150', 'PA2*0*0*0*0']);
    expect(item(vend(more), 'vend-counted')).toMatchObject({ state: 'pass' });
  });

  const kept = after('PA2*11*1650*3*450', [
    'VA1*3150*21*750*5',
    'CA2*2150*15*550*4',
    'CA3*650*450*100*100*2650*1650*600*400',
  ]);
  it.each([
    ['kept after a service read', kept, { isService: true }, null, 'missing', 'they were not cleared'],
    [
      'kept on a machine that never clears',
      kept,
      { isService: true },
      { name: 'p', resets: 'never' },
      'pass',
      'they were not cleared',
    ],
    [
      'cleared on a machine that never clears',
      paid,
      {},
      { name: 'p', resets: 'never' },
      'missing',
      'they were cleared',
    ],
    [
      'cleared on a machine that always clears',
      paid,
      {},
      { name: 'p', resets: 'every-read' },
      'pass',
      'they were cleared',
    ],
    [
      'kept by a read that was no service read',
      kept,
      { isService: false },
      { name: 'p', resets: 'service-read' },
      'pass',
      'they were not cleared',
    ],
    [
      'kept by a read of which nothing is known',
      kept,
      {},
      null,
      'not-known',
      'they were not cleared; nothing says whether it should',
    ],
    [
      'cleared by someone else',
      after('PA2*14*2100*1*150', [...cleared, 'VA1*3600*24*150*1']),
      { isService: true },
      null,
      'missing',
      'something else cleared them in between',
    ],
  ] as const)('judges counters %s', (_, segments, options, profile, state, detail) => {
    expect(item(vend(segments, options, profile), 'reset')).toMatchObject({ state, detail });
  });

  it('does not know of a reset where nothing was counted before', () => {
    const fresh = changeSegments({
      put: ['VA1*3000*20*0*0', 'CA2*2000*14*0*0', 'CA3*0*0*0*0*2500*1500*600*400', 'DA2*1000*6*0*0'],
    }).map((segment) => (segment.startsWith('PA2') ? 'PA2*10*1500*0*0' : segment));
    expect(item(installs(take(fresh), take(fresh)), 'reset')).toMatchObject({ state: 'not-known' });
  });
});
