import { describe, expect, it } from 'vitest';
import { makeCheckContext } from '../../src/checks/check-context.js';
import { readCaptures } from '../../src/read/index.js';
import { Roster, readMachines } from '../../src/sheets/index.js';
import { buildCapture } from '../support/build-capture.js';

const [read] = readCaptures(buildCapture(['ID1*S1*M****A1'])).reads;

describe('makeCheckContext', () => {
  it('says nothing of what is not known', () => {
    expect(makeCheckContext('x.dex', read!, { roster: new Roster() })).toMatchObject({
      file: 'x.dex',
      machine: null,
      hasRoster: false,
      saidMachine: null,
      profile: null,
      receivedAt: null,
      signal: null,
      clockToleranceMinutes: 10,
      lastGood: null,
      currency: null,
      decimals: null,
    });
  });

  it('hands on the roster, the tolerance and the last good read', () => {
    const { rows } = readMachines({ file: 'm.csv', content: 'machine,asset\nM1,A1\n' });
    const context = makeCheckContext('x.dex', read!, {
      roster: new Roster({ machines: rows }),
      clockToleranceMinutes: 3,
      lastGood: read!,
    });
    expect(context).toMatchObject({ hasRoster: true, machine: { machine: 'M1' }, clockToleranceMinutes: 3 });
    expect(context.lastGood).toBe(read);
  });
});
