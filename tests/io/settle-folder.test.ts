import { describe, expect, it } from 'vitest';
import { settleFolder } from '../../src/io/index.js';

const DEMO = 'fixtures/demo';

describe('settling a folder', () => {
  it('gives what the README shows of the demo: V106 is 5.00 short, all else that can be known agrees', async () => {
    const { settlements, findings } = await settleFolder(
      {
        captures: [`${DEMO}/captures`],
        counts: `${DEMO}/counts.csv`,
        machines: `${DEMO}/machines.csv`,
        capturesList: `${DEMO}/captures.csv`,
      },
      { day: '2026-11-23' },
    );
    const visits = settlements.flatMap((settlement) => settlement.visits);
    const short = visits.filter(({ state }) => state === 'short');
    expect(short.map(({ machine, overShort }) => [machine, overShort?.total])).toEqual([['V106', -500]]);
    expect(findings.map(({ code }) => code)).toContain('capture-unusable');
  });

  it('says what cannot be read, and settles what is left', async () => {
    const { settlements, findings } = await settleFolder({ captures: ['nowhere'], counts: 'nowhere.csv' });
    expect(settlements).toEqual([]);
    expect(findings.map(({ code }) => code)).toEqual(['unreadable-file', 'unreadable-file']);
  });

  it('refuses an option that has no meaning', async () => {
    const files = { captures: [`${DEMO}/captures`], counts: `${DEMO}/counts.csv` };
    await expect(settleFolder(files, { windowMinutes: -1 })).rejects.toThrow(RangeError);
  });
});
