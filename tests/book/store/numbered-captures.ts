import { createHash } from 'node:crypto';
import type { CaptureToRecord } from '../../../src/book/store/index.js';

/** The capture of a number: always the same, and each another. */
export function numberedCapture(number: number): CaptureToRecord {
  const bytes = Buffer.from(`PA1*${number}*150\r\nPA2*${number}*1800\r\n`.repeat(1 + (number % 40) * 5), 'latin1');
  const hash = (text: string | Uint8Array): string => createHash('sha256').update(text).digest('hex');
  return {
    kind: number % 10 === 9 ? 'set-aside' : 'capture-taken',
    recordedAt: '2026-11-24T22:15:00.000Z',
    name: `${number}.dex`,
    sha256: hash(bytes),
    size: bytes.length,
    bytes,
    facts: { number },
    reads:
      number % 10 === 9 ? [] : [0, 1].map((each) => readOf(number, each, hash(`${Math.floor(number / 3)} ${each}`))),
    file: { path: `/in/${number}.dex`, size: bytes.length, modifiedMs: number, changedMs: number },
  };
}

const readOf = (number: number, each: number, content: string) => ({
  number: each,
  asset: `A-${number % 7}`,
  serial: null,
  board: null,
  clock: `2026-11-24T10:${String(number % 60).padStart(2, '0')}:00`,
  content,
  machine: `machine ${Math.floor(number / 3) % 7}`,
  receivedAt: null,
  reason: null,
  bag: null,
  currency: 'EUR',
  decimals: 2,
  verdict: 'sound' as const,
  at: `2026-11-24T10:${String(number % 60).padStart(2, '0')}:00`,
  rests: null,
  facts: null,
});
