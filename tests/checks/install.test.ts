import { describe, expect, it } from 'vitest';
import { CaptureChecker, type CheckedRead } from '../../src/checks/check-capture.js';
import { checkInstall } from '../../src/checks/install.js';
import type { InstallCapture, InstallItem, InstallOptions } from '../../src/checks/install-item.js';
import type { PlanRow } from '../../src/model/index.js';
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

describe('install check, first capture', () => {
  it('passes a machine with all that the roster expects', () => {
    const check = installs(take(GOOD_SEGMENTS));
    expect(check.items.map(({ id, state, detail }) => [id, state, detail])).toEqual([
      ['capture', 'pass', 'whole and intact'],
      ['machine', 'pass', 'machine M1'],
      ['control-board', 'pass', 'reports as CB1'],
      ['coin-mechanism', 'pass', 'reports as CM1'],
      ['bill-validator', 'pass', 'reports as BV1'],
      ['card-reader', 'pass', 'reports as CR1'],
      ['clock', 'pass', 'within 2 minutes of the time it was received'],
      ['faults', 'pass', 'none is reported'],
      ['prices', 'pass', '2 columns compared'],
      ['test-vend', 'pass', '1 test vend in all'],
    ]);
    expect(check.passed).toBe(true);
    expect(check.headline).toBe('Installation passed.');
  });

  it('says what is missing', () => {
    const segments = changeSegments({
      put: ['ID5*261124*1115', 'PA1*11*170', 'EA2*EGS*1*1*1', 'VA1*0*0*0*0', 'VA2*0*0*0*0', 'PA2*0*0*0*0'],
      without: ['CA1', 'BA1', 'DA1', 'CB1'],
    }).map((segment) => (segment.startsWith('PA2') ? 'PA2*0*0*0*0' : segment));
    const check = installs(take(segments, {}, { crc: 'wrong' }));
    expect(check.items.filter(({ state }) => state === 'missing').map(({ id, detail }) => [id, detail])).toEqual([
      ['capture', expect.stringMatching(/^The integrity value is .* on the way\. It was received .*$/)],
      ['coin-mechanism', 'the coin mechanism does not report (CA1)'],
      ['bill-validator', 'the bill validator does not report (BA1)'],
      ['card-reader', 'the card reader does not report (DA1 or DB1)'],
      ['clock', 'the clock is 58 minutes ahead of the time it was received'],
      ['faults', '1 fault active: EGS'],
      ['prices', 'prices off plan: 11 at 1.70 EUR for 1.50 EUR'],
      ['test-vend', 'no vend was counted yet'],
    ]);
    expect(check.passed).toBe(false);
    expect(check.headline).toMatch(
      /^Installation not passed: The integrity value .* and 5 more\. 1 point could not be judged\.$/,
    );
    expect(check.items.filter(({ state }) => state === 'missing').every(({ advice }) => advice !== null)).toBe(true);
  });

  it('counts a doubt about the file too', () => {
    expect(item(installs(take(GOOD_SEGMENTS, {}, { setCount: 3 })), 'capture')).toMatchObject({
      state: 'missing',
      detail: expect.stringContaining('so a read is missing'),
    });
    // A variant that is only noted is no reason not to pass.
    expect(item(installs(take(GOOD_SEGMENTS, {}, { crc: 'swapped' })), 'capture')).toMatchObject({ state: 'pass' });
  });

  it('does not claim what nothing tells', () => {
    const check = installs(
      take(changeSegments({ without: ['BA1', 'CB1'] }), { roster: new Roster(), receivedAt: null }),
    );
    const unknown = check.items.filter(({ state }) => state === 'not-known');
    expect(unknown.map(({ id, detail }) => [id, detail])).toEqual([
      ['machine', 'no roster was given'],
      ['control-board', 'no CB1, and nothing says whether there is one'],
      ['bill-validator', 'no BA1, and nothing says whether there is one'],
      ['clock', 'it shows 2026-11-24 10:15; there is no time to hold it against'],
      ['prices', 'no plan was given for this machine'],
    ]);
    expect(check.headline).toBe('Installation passed. 5 points could not be judged.');
  });

  it('asks for no device that the roster says is not there', () => {
    const bare = new Roster({ machines: [machineRow({ hasCash: false, hasBills: false, hasCard: false })] });
    const check = installs(take(changeSegments({ without: ['CA1', 'BA1', 'DA1'] }), { roster: bare }));
    expect(check.items.map(({ id }) => id)).not.toContain('coin-mechanism');
  });

  it('names a machine that is not the right one', () => {
    const check = installs(take(changeSegments({ put: ['ID1*X*M****A9'] })));
    expect(item(check, 'machine')).toMatchObject({ state: 'missing', detail: expect.stringContaining('asset A9') });
  });

  it('wants a clock, a price and a serial number shown', () => {
    const check = installs(take(changeSegments({ put: ['ID5*', 'PA1*11', 'CB1*'] })));
    expect(item(check, 'clock')).toMatchObject({
      state: 'missing',
      detail: 'the machine gives no date and time (ID5)',
    });
    expect(item(check, 'prices')).toMatchObject({ state: 'missing', detail: 'prices off plan: 11 gives no price' });
    expect(item(check, 'control-board')).toMatchObject({ state: 'pass', detail: 'reports as no serial number' });
  });

  it('says by how much a clock is behind', () => {
    const check = installs(take(changeSegments({ put: ['ID5*261124*0915'] })));
    expect(item(check, 'clock')).toMatchObject({ detail: 'the clock is 1 h 2 min behind the time it was received' });
  });

  it.each([
    ['VA2*0*5*0*2', 'VA1*0*0*0*0', '2 test vends since the last reset'],
    ['VA2*0*5*0*0', 'VA1*0*0*0*0', '5 test vends in all'],
    ['VA2*0*0*0*0', 'VA1*0*3*0*1', '1 paid vend since the last reset'],
    ['VA2*0*0*0*0', 'VA1*0*3*0*0', '3 paid vends in all'],
  ])('takes %s and %s for: %s', (va2, va1, detail) => {
    const segments = changeSegments({ put: [va2, va1], without: ['PA2'] });
    expect(item(installs(take(segments)), 'test-vend')).toMatchObject({ state: 'pass', detail });
  });
});
