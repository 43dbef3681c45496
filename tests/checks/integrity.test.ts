import { describe, expect, it } from 'vitest';
import type { LastGoodRead } from '../../src/checks/check.js';
import { integrityCheck } from '../../src/checks/integrity.js';
import type { Profile } from '../../src/profile/index.js';
import type { IntegrityVariant } from '../../src/read/index.js';
import { buildCapture, bytesOf, textOf } from '../support/build-capture.js';
import { changeSegments, checkCases, GOOD_SEGMENTS, runCase } from '../support/check-cases.js';

const LEVEL_5 = changeSegments({ put: ['ID1*SN1*MODEL-A*1.0***A1*5*0'] });
const LOW_FIRST: Profile = { name: 'p', integrity: { byteOrder: 'low-first' } };
const FROM_DXS: Profile = { name: 'p', integrity: { range: 'from-dxs' } };

/** Another read of the machine, whose integrity value fitted in these variants. */
const lastGood = (variants: readonly IntegrityVariant[]): LastGoodRead => ({
  clock: '2026-11-23T10:15:00',
  columns: [],
  has: () => false,
  integrity: { variants },
});

/** A capture whose value covers DXS too and is written low byte first. */
const twoDepartures = (): Uint8Array => {
  const text = textOf(buildCapture(GOOD_SEGMENTS, { crc: 'from-dxs' }));
  return bytesOf(text.replace(/G85\*(..)(..)/, 'G85*$2$1'));
};

const afterG85 = (): Uint8Array =>
  bytesOf(textOf(buildCapture(GOOD_SEGMENTS, { seCount: 28 })).replace(/(G85\*....\r\n)/, '$1CA2*9*9*9*9\r\nXX9\r\n'));

checkCases('integrity', integrityCheck, {
  clean: [
    // Lower-case digits are exact (domain rule: hexadecimal digits, as seen in the field).
    { name: 'lower-case digits', capture: { crc: 'lower' } },
    // A cut capture says itself that its integrity is not known.
    { name: 'a cut capture', capture: { cutAt: 300 } },
  ],
  failing: [
    {
      name: 'a value that fits nothing',
      capture: { crc: 'wrong' },
      code: 'integrity-damaged',
      severity: 'fault',
      message: /^The integrity value is ....,.* bytes give ....: something was changed or lost on the way\.$/,
      at: { segment: 'G85', element: 'G8501', line: 26, advice: expect.stringMatching(/^Read the machine again/) },
    },
    {
      name: 'a value with the signal beside it',
      capture: { crc: 'wrong' },
      context: { receivedAt: '2026-11-24T10:20:00', signal: 20 },
      code: 'integrity-damaged',
      severity: 'fault',
      message: /It was received 2026-11-24 10:20 with a good signal \(20 of 31\)\.$/,
    },
    {
      name: 'no hexadecimal value',
      capture: { crc: 'XYZ!' },
      code: 'integrity-damaged',
      severity: 'fault',
      at: { received: 'XYZ!' },
    },
    {
      name: 'a missing ST',
      bytes: bytesOf(textOf(buildCapture(GOOD_SEGMENTS)).replace('ST*001*0001\r\n', '')),
      code: 'integrity-damaged',
      severity: 'fault',
      message: /beginning of the read \(ST\) is missing/,
    },
    {
      name: 'no G85',
      capture: { crc: 'none' },
      code: 'integrity-absent',
      severity: 'doubt',
      message: /no integrity value \(G85\)/,
    },
    {
      // Fewer than four digits is absent (domain rule).
      name: 'a value too short',
      capture: { crc: '1F' },
      code: 'integrity-absent',
      severity: 'doubt',
      message: /only "1F"/,
    },
    {
      // Least significant byte first at level 5.0 (manual L0190D, p. 42).
      name: 'exchanged bytes at level 5',
      segments: LEVEL_5,
      capture: { crc: 'swapped' },
      code: 'integrity-byte-order',
      severity: 'note',
      message: /as machines of an older level write it/,
    },
    {
      name: 'exchanged bytes at level 6',
      capture: { crc: 'swapped' },
      code: 'integrity-byte-order',
      severity: 'doubt',
      message: /exchanged, though the machine says level 6\.$/,
      at: { advice: expect.stringContaining('two reads that agree') },
    },
    {
      name: 'exchanged bytes where the level is not stated',
      segments: changeSegments({ put: ['ID1*SN1*MODEL-A*1.0***A1'] }),
      capture: { crc: 'swapped' },
      code: 'integrity-byte-order',
      severity: 'doubt',
      message: /and nothing shows that this machine writes it so/,
    },
    {
      name: 'exchanged bytes as in another read of the machine',
      capture: { crc: 'swapped' },
      context: { lastGood: lastGood(['byte-swapped']) },
      code: 'integrity-byte-order',
      severity: 'note',
      message: /as in another read of this machine/,
    },
    {
      name: 'exchanged bytes where another read fits in another variant',
      capture: { crc: 'swapped' },
      context: { lastGood: lastGood(['from-dxs']) },
      code: 'integrity-byte-order',
      severity: 'doubt',
    },
    {
      name: 'exchanged bytes that only a copy of the same read shows',
      capture: { crc: 'swapped' },
      context: { lastGood: { ...lastGood(['byte-swapped']), clock: '2026-11-24T10:15:00' } },
      code: 'integrity-byte-order',
      severity: 'doubt',
    },
    {
      name: 'exchanged bytes that a profile expects',
      capture: { crc: 'swapped' },
      context: { profile: LOW_FIRST },
      code: 'integrity-byte-order',
      severity: 'note',
      message: /as the profile says/,
    },
    {
      name: 'line endings changed to LF',
      capture: { eol: '\n' },
      code: 'integrity-line-endings',
      severity: 'doubt',
      message: /put back to CR LF the integrity value fits/,
    },
    {
      name: 'line endings changed and an ST with an appended time',
      capture: { eol: '\r', stAppend: '261124101500' },
      code: 'integrity-line-endings',
      severity: 'doubt',
      message: /put back to CR LF and when what the reader appended/,
    },
    {
      name: 'a range from DXS',
      capture: { crc: 'from-dxs' },
      code: 'integrity-range',
      severity: 'doubt',
      message: /from DXS on instead of from ST on, and nothing shows/,
    },
    {
      name: 'a range from DXS that a profile expects',
      capture: { crc: 'from-dxs' },
      context: { profile: FROM_DXS },
      code: 'integrity-range',
      severity: 'note',
      message: /as the profile says/,
    },
    {
      name: 'a range without the last line ending',
      capture: { crc: 'without-last-eol' },
      code: 'integrity-range',
      severity: 'doubt',
      message: /last line ending before G85 is left out, and nothing shows/,
    },
    {
      name: 'what a reader appended to ST',
      capture: { stAppend: '261124101500' },
      code: 'integrity-range',
      severity: 'doubt',
      message: /appended to ST is taken out again/,
    },
    {
      name: 'what a reader appended to ST, which a profile expects',
      capture: { stAppend: '261124101500' },
      context: { profile: { name: 'p', integrity: { range: 'st-appended' } } },
      code: 'integrity-range',
      severity: 'note',
    },
    {
      name: 'two departures at once',
      bytes: twoDepartures(),
      code: 'integrity-range',
      severity: 'doubt',
      message: /from ST on and with its two bytes exchanged, and nothing shows/,
    },
    {
      name: 'two departures that a profile expects',
      bytes: twoDepartures(),
      context: { profile: { name: 'p', integrity: { range: 'from-dxs', byteOrder: 'low-first' } } },
      code: 'integrity-range',
      severity: 'note',
    },
    {
      name: 'segments after G85',
      bytes: afterG85(),
      code: 'integrity-range',
      severity: 'doubt',
      message: /^2 segments stand after G85/,
    },
  ],
});

describe('integrity: the catalogue of parametrised CRC algorithms', () => {
  // Its check value, CRC-16/ARC of 123456789, is BB3D. A set can not be just those bytes, since it begins with ST, so the
  // nine digits stand where everything before them has brought the CRC back to 0: any message followed by its own CRC, low
  // byte first, leaves 0 (a property of reflected CRCs).
  it('finds BB3D for 123456789', () => {
    const head = 'ST*001*0001*';
    const crc = bitwise(head);
    const covered = `${head}${String.fromCharCode(crc & 0xff, crc >> 8)}123456789`;
    expect(bitwise(covered)).toBe(0xbb3d);
    // The value must also cover the line ending that stands before G85: leaving that out is the variant.
    const bytes = bytesOf(`DXS*T*VA*V1/1*1\r\n${covered}\r\nG85*BB3D\r\nSE*3*0001\r\nDXE*1*1\r\n`);
    const [finding] = runCase(integrityCheck, { name: 'catalogue', bytes });
    expect(finding).toMatchObject({ code: 'integrity-range', message: expect.stringContaining('BB3D') });
  });
});

/** CRC-16/ARC straight from its definition: polynomial 8005h reflected, initial value 0. */
function bitwise(text: string): number {
  let crc = 0;
  for (const byte of bytesOf(text)) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xa001 : crc >>> 1;
  }
  return crc;
}
