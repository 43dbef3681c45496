import fc from 'fast-check';
import { buildCapture, type CaptureOptions } from '../build-capture.js';
import { GOOD_SEGMENTS } from '../check-cases.js';
import { bytesOf, joinCaptures } from '../latin1-bytes.js';

const LINES = [
  'DXS*TST0000001*VA*V1/1*1',
  'ST*001*0001',
  'ST*001*0001*261124101500',
  'ID1*SN1*M****A1*6*1',
  'ID4*2*978*EUR',
  'ID5*261124*1015',
  'PA1*11*150',
  'PA1*11*150*****1',
  'PA2*10*1500*2*300',
  'PA2*x*99999999999999999*-1',
  'PA7*11*CA*0*150*1*150*1*150',
  'LS*0100',
  'LE*0100',
  'VA1*1*1*1*1',
  'CA2*1*1*1*1',
  'CA3',
  'CA15*0',
  'CA17*1*5*0',
  'EA2*EGS*1*1*1',
  'EA6*261120*1000*261120*1200',
  'MA5*FAIL*1',
  'G85*BB3D',
  'G85*0',
  'SE*4*0001',
  'DXE*1*1',
  'ZZ9*\u001b[2J',
  '',
];
const JOINTS = ['\r\n', '\r\n', '\r\n', '\n', '\r', '\r\r\n', '', '\u0000', '\u001a', '\u00ef\u00bb\u00bf', ' ', '*'];

/** Lines of captures in no order, with all kinds of things between them. */
const captureLike = fc
  .array(fc.tuple(fc.constantFrom(...LINES), fc.constantFrom(...JOINTS)), { maxLength: 40 })
  .map((parts) => bytesOf(parts.flat().join('')));

const options: fc.Arbitrary<CaptureOptions> = fc.record(
  {
    crc: fc.constantFrom('exact', 'swapped', 'lower', 'none', 'wrong', 'from-dxs', 'without-last-eol'),
    eol: fc.constantFrom('\r\n' as const, '\n' as const, '\r' as const),
    envelope: fc.boolean(),
    stAppend: fc.constantFrom('261124101500', 'X'),
    seCount: fc.constantFrom(5, 'x', ''),
    dxe: fc.constantFrom(null, 'DXE', 'DXE*1*1'),
    cutAt: fc.integer({ min: 0, max: 700 }),
    padding: fc.constantFrom(bytesOf('\u0000\u0000'), bytesOf('\u001a')),
  },
  { requiredKeys: [] },
);

/** Good captures sent in all kinds of ways, some of them with a stretch of bytes replaced. */
const sentCapture = fc
  .tuple(options, fc.option(fc.tuple(fc.nat(800), fc.uint8Array({ maxLength: 30 }))))
  .map(([how, change]) => {
    const bytes = buildCapture(GOOD_SEGMENTS, how);
    if (change !== null && change[0] < bytes.length)
      bytes.set(change[1].subarray(0, bytes.length - change[0]), change[0]);
    return bytes;
  });

/** Files of every kind: random bytes, lines of captures in no order, captures sent well or badly, and those joined. */
export const anyFile: fc.Arbitrary<Uint8Array> = fc
  .array(fc.oneof(captureLike, sentCapture, fc.uint8Array({ maxLength: 120 })), { maxLength: 4 })
  .map((parts) => joinCaptures(...parts));

/** Places at which a file is cut into chunks; all of them for `each byte`. */
export const anyCuts: fc.Arbitrary<readonly number[] | 'each byte'> = fc.oneof(
  fc.constant('each byte' as const),
  fc.array(fc.nat(3000), { maxLength: 12 }),
);

/** The chunks of a file, each in a buffer of its own, as a stream gives them. */
export function cutUp(bytes: Uint8Array, cuts: readonly number[] | 'each byte'): Uint8Array[] {
  const inner = cuts === 'each byte' ? Array.from(bytes, (_, i) => i) : [...cuts].sort((a, b) => a - b);
  const edges = [0, ...inner.map((cut) => Math.min(cut, bytes.length)), bytes.length];
  return edges.slice(1).map((edge, i) => bytes.slice(edges[i], edge));
}
