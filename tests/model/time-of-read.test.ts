import { describe, expect, it } from 'vitest';
import { bestTime, type ReadTime, TIME_KINDS, timeOfRead } from '../../src/model/index.js';
import { takeSegments } from '../support/taken.js';

const CLOCK = ['ID1*S1', 'ID5*260105*0900'];
const RECEIVED = { receivedAt: '2026-11-23T09:05:00' };
const APPENDED = { stAppend: '261123090000' };

// The order is a domain rule: received, then what a reader appended to ST, then the machine's clock.
describe('timeOfRead', () => {
  const cases: readonly (readonly [name: string, Parameters<typeof takeSegments>, ReadTime | null])[] = [
    ['nothing', [['ID1*S1']], null],
    ['a clock', [CLOCK], { time: '2026-01-05T09:00:00', kind: 'clock' }],
    ['what a reader appended, and a clock', [CLOCK, {}, APPENDED], { time: '2026-11-23T09:00:00', kind: 'appended' }],
    ['all', [CLOCK, RECEIVED, APPENDED], { time: '2026-11-23T09:05:00', kind: 'received' }],
    ['when it was received alone', [['ID1*S1'], RECEIVED], { time: '2026-11-23T09:05:00', kind: 'received' }],
  ];
  for (const [name, given, time] of cases) {
    it(`${name}: ${time?.kind ?? 'not known'}`, () => {
      const taken = takeSegments(...given);
      expect(timeOfRead(taken)).toEqual(time);
      expect(bestTime(taken)).toBe(time?.time ?? null);
    });
  }

  it('lists its kinds strongest first', () => expect(TIME_KINDS).toEqual(['received', 'appended', 'clock']));
});
