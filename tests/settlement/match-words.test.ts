import { describe, expect, it } from 'vitest';
import type { Collection } from '../../src/settlement/collection.js';
import { NO_MATCH } from '../../src/settlement/match-visit.js';
import { sayNoCapture, sayTwoCaptures, sayUnusable } from '../../src/settlement/match-words.js';
import { makeVisitRead, type VisitRead } from '../../src/settlement/visit-read.js';
import { VisitTeller } from '../../src/settlement/visit-teller.js';
import { makeCount, type Shown, takeScenario } from './scenario.js';

// The words themselves are held beside the cases they are said of, in judge-visit.test.ts; here what is left of them.
const read = (file: string, shown: Partial<Shown> = {}): VisitRead =>
  makeVisitRead(
    takeScenario({ captures: { [file]: { at: '2026-11-24T10:00', ...shown } } }).reads[0]!,
    0,
    [],
    undefined,
  );

function say(saying: (teller: VisitTeller) => void): string {
  const teller = new VisitTeller({ machine: 'M1' }, { currency: 'EUR', decimals: 2 });
  saying(teller);
  const [finding] = teller.findings;
  return `${finding!.message}${finding!.advice === undefined ? '' : ` | ${finding!.advice}`}`;
}

describe('words on captures and bags', () => {
  it('show a file name that is hostile as text', () => {
    expect(say((teller) => sayTwoCaptures(teller, [read('a\u001b[31m\n.dex')]))).toContain(
      'a\\x1B[31m\\x0A.dex (10:00)',
    );
  });

  it('say of a read without a time that it has none', () => {
    const timeless = read('a.dex', { at: '0000-00-00T99:99' });
    expect(say((teller) => sayTwoCaptures(teller, [timeless]))).toContain('a.dex (no time)');
  });

  it('say where a bag is settled, if it is', () => {
    const alone = {
      settledWith: 'next',
      match: NO_MATCH,
      counts: [makeCount('M1', '2026-11-24')],
    } as unknown as Collection;
    const damaged = read('a.dex', { damaged: true });
    expect(say((teller) => sayUnusable(teller, damaged, alone))).toMatch(
      /\| Without it this bag is settled together with the next/,
    );
    expect(say((teller) => sayUnusable(teller, damaged, { ...alone, counts: [] }))).not.toContain('|');
    expect(say((teller) => sayUnusable(teller, damaged, { ...alone, settledWith: null }))).not.toContain('|');
    expect(say((teller) => sayNoCapture(teller, { ...alone, settledWith: null }, '', ''))).toMatch(
      /\| Look for the capture\.$/,
    );
    const lost = { ...alone, counts: [makeCount('M1', '2026-11-24', { capture: 'x\u0007.dex' })] };
    expect(say((teller) => sayNoCapture(teller, lost, '', ''))).toMatch(
      'There is no capture for this bag. x\\x07.dex, which the sheet names, is none of this machine. Nothing shows',
    );
    const joined = { ...alone, settledWith: makeCount('M1', '2026-11-28') };
    expect(say((teller) => sayNoCapture(teller, joined, '', ''))).toMatch(
      'settled together with the bag of 2026-11-28.',
    );
  });
});
