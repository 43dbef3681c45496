import { describe, expect, it } from 'vitest';
import { buildIntervals } from '../../src/interval/index.js';
import { makeVisitRead, minuteOf } from '../../src/settlement/visit-read.js';
import { makeMachine, type Shown, takeScenario } from './scenario.js';

const take = (shown: Partial<Shown>) =>
  takeScenario({ captures: { 'a.dex': { at: '2026-11-24T10:00', ...shown } } }).reads[0]!;

describe('minuteOf', () => {
  it('leaves seconds off, as a clock does', () => {
    expect(minuteOf('2026-11-24T10:00:59')).toBe(minuteOf('2026-11-24T10:00:00'));
    expect(minuteOf('2026-11-24T10:01:00') - minuteOf('2026-11-24T10:00:59')).toBe(1);
  });

  it('counts across midnight and the end of a year', () => {
    expect(minuteOf('2027-01-01T00:05:00') - minuteOf('2026-12-31T23:55:00')).toBe(10);
  });
});

describe('makeVisitRead', () => {
  it.each([
    ['service', true],
    ['scheduled', false],
    ['on demand', false],
  ] as const)('knows from the captures list what a read was: %s', (reason, isService) => {
    expect(makeVisitRead(take({ reason }), 0, [], undefined).isService).toBe(isService);
  });

  it('does not know what nothing says', () => {
    expect(makeVisitRead(take({}), 0, [], undefined).isService).toBeNull();
  });

  it('goes by the names, bags and reasons of all its copies', () => {
    const copies = [take({ bag: 'B1' }), take({ reason: 'service', bag: 'B2' })];
    const read = makeVisitRead(take({ reason: 'scheduled' }), 3, copies, undefined);
    expect(read).toMatchObject({
      isService: true,
      files: ['a.dex', 'a.dex', 'a.dex'],
      bags: ['B1', 'B2'],
      position: 3,
    });
  });

  it.each([
    ['cleared the counters', 100, 50, true],
    ['kept them', 150, 100, false],
  ] as const)(
    'knows by a machine that clears on service reads only: this read %s',
    (_, after, boxSinceReset, isService) => {
      const profile = { name: 'P', resets: 'service-read' } as const;
      const { reads, roster } = takeScenario({
        captures: {
          'a.dex': { at: '2026-11-24T10:00', box: 100, boxSinceReset: 100 },
          'b.dex': { at: '2026-11-25T10:00', box: 150, boxSinceReset: isService ? boxSinceReset : after },
        },
        machines: [makeMachine({ machine: 'M1', asset: 'A1', profile: 'P' })],
        profiles: [profile],
      });
      const { intervals } = buildIntervals(reads, roster);
      expect(makeVisitRead(reads[0]!, 0, [], intervals[0]).isService).toBe(isService);
      // Nothing comes after the last read that could show it.
      expect(makeVisitRead(reads[1]!, 1, [], undefined).isService).toBeNull();
    },
  );
});
