import { gzipSync } from 'node:zlib';
import { buildCapture, joinCaptures } from '../../support/build-capture.js';
import { GOOD_SEGMENTS } from '../../support/check-cases.js';
import { captureOf } from './run-intake.js';

/** Limits so low that a small folder has files of every kind: recorded a few at a time, or piece by piece. */
export const LOW_LIMITS = {
  filesAtOnce: 4,
  bytesAtOnce: 6000,
  readsAtOnce: 6,
  longestWhole: 2500,
  largestUnpacked: 20_000,
  largestSetAside: 15_000,
} as const;

/** Files of all kinds that a folder may hold, by name, in folders: the same for the same count always. */
export function mixedFiles(count: number): Record<string, string | Uint8Array> {
  const files = Array.from({ length: count }, (_, i) => [`${i % 7}/${i}.dex`, mixedFile(i)] as const);
  return Object.fromEntries(files);
}

function mixedFile(i: number): string | Uint8Array {
  const capture = captureOf(`A${i % 23}`, i);
  switch (i % 12) {
    case 1:
      return gzipSync(capture);
    case 2:
      return `no capture but number ${i}`;
    case 3:
      return joinCaptures(capture, captureOf(`B${i}`, i), captureOf(`A${(i + 1) % 23}`, i));
    case 4:
      // The same read as others, told by line endings only.
      return buildCapture(GOOD_SEGMENTS, { eol: i % 24 === 4 ? '\n' : '\r', header: `${i}` });
    case 5:
      return capture.subarray(0, 400 + i);
    case 6:
      // Many copies of the same bytes.
      return captureOf('A1', 6);
    case 7:
      return joinCaptures(...Array.from({ length: 6 }, (_, number) => captureOf(`C${number}`, i)));
    case 8:
      return gzipSync(joinCaptures(...Array.from({ length: 6 }, (_, number) => captureOf(`D${number}`, i))));
    case 9:
      return i % 24 === 9 ? gzipSync(Buffer.alloc(30_000 + i)) : `${'junk '.repeat(3200)}${i}`;
    default:
      return capture;
  }
}
