import { describe, expect, it } from 'vitest';
import { CaptureChecker, FirstArrivals } from '../../src/checks/index.js';
import { readCaptures } from '../../src/read/index.js';
import { buildCapture } from '../support/build-capture.js';

const at = (date: string, time: string, sold = 5) =>
  buildCapture([
    'ID1*S1*M1****A1',
    `ID5*${date}*${time}`,
    `VA1*${sold}*${sold}*0*0`,
    'PA1*11*1',
    `PA2*${sold}*${sold}*0*0`,
  ]);

function clocksOf(files: readonly (readonly [bytes: Uint8Array, receivedAt: string])[]): number[] {
  const arrivals = new FirstArrivals();
  return files.map(([bytes, receivedAt], i) => {
    const checker = new CaptureChecker(`${i}.dex`, { receivedAt, arrivals });
    const { reads, findings } = readCaptures(bytes);
    for (const read of reads) checker.addRead(read);
    return checker.end({ findings }).findings.filter(({ code }) => code === 'clock-wrong').length;
  });
}

// Domain rule: the earliest arrival of a read judges its clock.
describe('a read that comes again', () => {
  const read = at('261124', '1000');

  it('says nothing of the clock', () => {
    expect(
      clocksOf([
        [read, '2026-11-24T10:02:00'],
        [read, '2026-11-25T08:00:00'],
      ]),
    ).toEqual([0, 0]);
  });

  it('has a clock that is wrong told once', () => {
    expect(
      clocksOf([
        [read, '2026-11-24T12:00:00'],
        [read, '2026-11-25T08:00:00'],
      ]),
    ).toEqual([1, 0]);
  });

  it('is none where it only shows the same time: a clock may stand still', () => {
    const stuck = at('000101', '0000', 6);
    expect(
      clocksOf([
        [at('000101', '0000'), '2026-11-24T12:00:00'],
        [stuck, '2026-11-25T12:00:00'],
      ]),
    ).toEqual([1, 1]);
  });
});
