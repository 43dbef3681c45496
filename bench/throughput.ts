import { crc16 } from '../src/bytes/index.js';
import { checkCapture } from '../src/checks/index.js';
import { readCaptures } from '../src/read/index.js';
import { type CaptureStyle, makeCaptures } from './captures.js';
import { measureByTurns, type Work } from './measure.js';
import { writeTable } from './report.js';
import { makeSplitters } from './splitters.js';

// So many different captures that a processor can not learn them by heart, as it does with one.
const CAPTURES = 64;
const CAPTURES_A_ROUND = 128;
const SLOW_CAPTURES_A_ROUND = 4;
const ROUNDS = 120;

/** How long one capture takes, ours beside general splitters of delimited text, as ratios to udsv. */
export function benchThroughput(): string {
  return (['sparse', 'dense'] as const).map(benchStyle).join('\n\n');
}

function benchStyle(style: CaptureStyle): string {
  const captures = makeCaptures(CAPTURES, style).map((bytes) => Buffer.from(bytes));
  const bytes = captures.reduce((sum, capture) => sum + capture.length, 0) / captures.length;
  const perCapture = (name: string, use: (capture: Buffer) => number, count = CAPTURES_A_ROUND): Work => ({
    name,
    captures: count,
    run: () => {
      let sum = 0;
      for (let i = 0; i < count; i++) sum += use(captures[i % CAPTURES]!);
      return sum;
    },
  });
  const works = [
    ...makeSplitters(captures[0]!).map(({ name, split, isSlow }) =>
      perCapture(name, split, isSlow ? SLOW_CAPTURES_A_ROUND : CAPTURES_A_ROUND),
    ),
    perCapture('CRC alone', (capture) => crc16(capture)),
    perCapture('read', (capture) => readCaptures(capture).reads.length),
    perCapture('full check', (capture) => checkCapture('capture', capture).findings.length),
  ];
  const timings = measureByTurns(works, ROUNDS);
  const udsv = timings.find((timing) => timing.name === 'udsv')!;
  const rows = timings.map(({ name, bestMicros, medianMicros }) => [
    name,
    bestMicros.toFixed(1),
    medianMicros.toFixed(1),
    Math.round(1e6 / bestMicros).toLocaleString('en'),
    (bytes / bestMicros).toFixed(0),
    (udsv.bestMicros / bestMicros).toFixed(2),
  ]);
  const heads = ['', 'µs, best', 'µs, median', 'captures/s', 'MB/s', '× udsv'];
  return `Captures of ${Math.round(bytes)} bytes, 45 columns, ${style}:\n\n${writeTable(heads, rows)}`;
}
