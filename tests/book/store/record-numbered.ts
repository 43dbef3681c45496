// A process of its own that records numbered captures: `record-numbered BOOK FROM TO BATCH [STOP]`. It writes a line when the
// book is open and one after each batch. At the capture STOP it stands still in the middle of the transaction, saying so.
import { writeSync } from 'node:fs';
import { openSqliteBook } from '../../../src/book/store/index.js';
import { numberedCapture } from './numbered-captures.js';

const [path, from, to, batch, stop = -1] = process.argv.slice(2).map((text, i) => (i === 0 ? text : Number(text))) as [
  string,
  number,
  number,
  number,
  number?,
];

/** The bytes of a capture in two parts, with a standstill between them. */
function* standStill(bytes: Uint8Array): Generator<Uint8Array> {
  yield bytes.subarray(0, 10);
  writeSync(1, 'in the middle\n');
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0);
}

const book = await openSqliteBook(path, { create: true });
writeSync(1, 'open\n');
for (let first = from; first < to; first += batch) {
  const captures = Array.from({ length: Math.min(batch, to - first) }, (_, i) => {
    const capture = numberedCapture(first + i);
    return first + i === stop ? { ...capture, bytes: standStill(capture.bytes as Uint8Array) } : capture;
  });
  await book.recordCaptures(captures);
  writeSync(1, `recorded ${first + captures.length}\n`);
}
await book.close();
