import { describe, expect, it } from 'vitest';
import { M1, makeCount, makeMachine, messageOf, type Shown, visitsOf } from './scenario.js';

// The roster has A1O1 where the machine gives A101: its captures are of no machine that anybody knows.
const TYPO = makeMachine({ machine: 'V101', asset: 'A1O1', currency: 'EUR' });
const seen = (when: string, more: Partial<Shown> = {}): Shown => ({ at: when, asset: 'A101', box: 5000, ...more });

function tell(captures: Record<string, Shown>, when: string, more: Parameters<typeof makeCount>[2] = {}) {
  const visit = visitsOf({ captures, machines: [TYPO, M1], counts: [makeCount('V101', when, more)] })[0]!;
  const finding = visit.findings.find(({ code }) => code === 'no-capture')!;
  return { state: visit.state, message: messageOf(visit, 'no-capture'), advice: finding.advice! };
}

describe('a bag without a capture, where one of a machine not on the roster is there', () => {
  it('names it with what is alike, and sends nobody to look for it', () => {
    const { state, message, advice } = tell({ 'a.dex': seen('2026-11-24T10:03') }, '2026-11-24T10:00');
    expect(state).toBe('unread');
    expect(message).toBe(
      'There is no capture for this bag. A capture of a machine that is not on the roster may be it: a.dex of asset A101 and serial S1 (it was taken 3 minutes from the visit and gives nearly the number on the roster (asset A1O1)). Nothing shows what was expected.',
    );
    expect(advice).toBe(
      "Check that machine's asset and serial number on the roster: if it is this one, correct them and settle again. Else look for the capture.",
    );
  });

  it('names it at the minute of the visit whatever its number', () => {
    const { message } = tell({ 'a.dex': seen('2026-11-24T10:00', { asset: 'ZZZ9' }) }, '2026-11-24T10:00');
    expect(message).toContain('a.dex of asset ZZZ9 and serial S1 (it was taken at the minute of the visit)');
  });

  it('asks more of a bag known by its date alone', () => {
    expect(tell({ 'a.dex': seen('2026-11-24T10:00') }, '2026-11-24').message).toContain(
      'it was taken on that date at 10:00 and gives nearly the number',
    );
    expect(tell({ 'a.dex': seen('2026-11-24T10:00', { asset: 'ZZZ9' }) }, '2026-11-24').message).not.toContain('ZZZ9');
  });

  it('names the one that the sheet names', () => {
    const { message } = tell({ 'a.dex': seen('2026-11-20T10:00', { asset: 'ZZZ9' }) }, '2026-11-24', {
      capture: 'a.dex',
    });
    expect(message).toContain('a.dex of asset ZZZ9 and serial S1 (it is named with this bag)');
  });

  it('says nothing of captures of the roster, or of another time', () => {
    const { message, advice } = tell(
      { 'a.dex': seen('2026-11-23T10:00'), 'b.dex': { at: '2026-11-24T10:00' } },
      '2026-11-24T10:00',
    );
    expect(message).toBe('There is no capture for this bag. Nothing shows what was expected.');
    expect(advice).toBe('Look for the capture.');
  });
});
