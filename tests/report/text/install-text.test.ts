import { describe, expect, it } from 'vitest';
import type { InstallItem } from '../../../src/checks/index.js';
import { adviseAtCabinet, type CautiousAdvice, makeFinding } from '../../../src/findings/index.js';
import { layInstallation } from '../../../src/report/index.js';
import { PLAIN_STYLE, TERMINAL_STYLE } from '../../../src/report/text/style.js';

const item = (state: InstallItem['state'], advice: CautiousAdvice | null = null): InstallItem => ({
  id: 'clock',
  what: 'the clock is right',
  state,
  detail: `seen as ${state}`,
  ...(advice ?? { advice: null }),
});
const check = (...items: InstallItem[]) => ({ passed: false, headline: 'Installation not passed.', items });

describe('layInstallation', () => {
  it('puts what is missing first, with what to do, and each caution once', () => {
    const items = [item('pass'), item('not-known'), item('missing', adviseAtCabinet("Set the machine's clock."))];
    const lines = layInstallation({ file: 'a.dex', second: null, check: check(...items) }, [], PLAIN_STYLE);
    expect(lines.slice(0, 7)).toEqual([
      'Installation not passed.',
      '  a.dex',
      '',
      '  missing    seen as missing',
      "             Do: Set the machine's clock.",
      '  not known  the clock is right: seen as not-known',
      '  pass       the clock is right: seen as pass',
    ]);
    expect(lines).toContain('Cautions');
  });

  it('names both captures, and what belongs to neither', () => {
    const general = [makeFinding('bad-row', 'machines.csv, row 3: bad.')];
    const lines = layInstallation({ file: 'a.dex', second: 'b.dex', check: check(item('pass')) }, general, PLAIN_STYLE);
    expect(lines[1]).toBe('  a.dex, then b.dex');
    expect(lines).toContain('doubt  machines.csv, row 3: bad.');
    expect(lines).not.toContain('Cautions');
  });

  it('sets off what is missing', () => {
    const lines = layInstallation({ file: 'a.dex', second: null, check: check(item('missing')) }, [], TERMINAL_STYLE);
    expect(lines[3]).toBe('\u001b[1m  missing    \u001b[22mseen as missing');
  });
});
