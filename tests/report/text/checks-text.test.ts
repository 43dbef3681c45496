import { describe, expect, it } from 'vitest';
import { checkCapture } from '../../../src/checks/index.js';
import { adviseAtCabinet, makeFinding } from '../../../src/findings/index.js';
import { ChecksReport } from '../../../src/report/index.js';
import { PLAIN_STYLE } from '../../../src/report/text/style.js';
import { buildCapture } from '../../support/build-capture.js';

const SEGMENTS = ['ID1*S1*M1', 'ID4*2*978*EUR', 'CB1*B1', 'VA1*100*1'];
const GOOD = checkCapture('good.dex', buildCapture(SEGMENTS));
const DOUBTFUL = checkCapture('doubtful.dex', buildCapture(SEGMENTS, { seCount: 99 }));
const BAD = checkCapture('bad.dex', buildCapture(SEGMENTS, { crc: 'wrong' }));

function report(checks: readonly Parameters<ChecksReport['add']>[0][], showsSound = false): string[] {
  const made = new ChecksReport(PLAIN_STYLE, showsSound);
  for (const check of checks) expect(made.add(check)).toEqual([]);
  return made.lay([]);
}

describe('ChecksReport', () => {
  it('lets one capture stand for itself', () => {
    expect(report([GOOD])[0]).toBe('Sound: nothing to do.');
    expect(report([GOOD], true)[0]).toBe('Sound: nothing to do.');
    expect(report([BAD])[0]).toMatch(/^Read again: /);
  });

  it('counts several, and shows those that need a look, worst first', () => {
    const lines = report([DOUBTFUL, GOOD, BAD]);
    expect(lines[0]).toBe('3 captures: 1 to read again, 1 doubtful, 1 sound.');
    const files = lines.filter((line) => /^ {2}\w+\.dex$/.test(line));
    expect(files).toEqual(['  bad.dex', '  doubtful.dex']);
    expect(report([DOUBTFUL, GOOD, BAD], true).filter((line) => /^ {2}\w+\.dex$/.test(line))).toHaveLength(3);
  });

  it('counts a file once, with the worst of its parts', () => {
    const part = (check: typeof GOOD, firstRead: number) => ({ ...check, file: 'long.dex', firstRead });
    expect(report([part(GOOD, 0), part(BAD, 5000), part(DOUBTFUL, 10_000), GOOD])[0]).toBe(
      '2 captures: 1 to read again, 0 doubtful, 1 sound.',
    );
    expect(report([part(GOOD, 0), part(GOOD, 5000)])[0]).toBe('Sound: nothing to do.');
  });

  it('ends with what belongs to no capture, and with the cautions', () => {
    const made = new ChecksReport(PLAIN_STYLE, false);
    const finding = makeFinding('clock-wrong', 'The clock is off.', adviseAtCabinet("Set the machine's clock."));
    made.add({ ...DOUBTFUL, findings: [finding] });
    const lines = made.lay([makeFinding('bad-row', 'machines.csv, row 3: bad.')]);
    expect(lines.indexOf('doubt  machines.csv, row 3: bad.')).toBeGreaterThan(0);
    expect(lines.indexOf('Cautions')).toBeGreaterThan(lines.indexOf('doubt  machines.csv, row 3: bad.'));
  });
});
