import type { SegmentBlock } from './segment-block.js';
import { SegmentParser, type SegmentParserOptions } from './segment-parser.js';

/** The blocks of a file that is in memory whole. See {@link SegmentParser}. */
export function parseSegments(bytes: Uint8Array, options: SegmentParserOptions = {}): SegmentBlock[] {
  const blocks: SegmentBlock[] = [];
  const keep = (block: SegmentBlock): void => {
    blocks.push(block);
  };
  const parser = new SegmentParser(options);
  parser.push(bytes, keep);
  parser.end(keep);
  return blocks;
}

/**
 * The blocks of a file that comes in chunks, such as a Node or web stream, each as soon as its lines are whole.
 * Memory stays flat however long the file.
 *
 * @throws whatever the chunks throw: a failing file or socket is the caller's
 * @example for await (const block of streamSegments(createReadStream(path))) { … }
 */
export async function* streamSegments(
  chunks: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  options: SegmentParserOptions = {},
): AsyncGenerator<SegmentBlock> {
  const parser = new SegmentParser(options);
  let ready: SegmentBlock[] = [];
  const keep = (block: SegmentBlock): void => {
    ready.push(block);
  };
  for await (const chunk of chunks) {
    parser.push(chunk, keep);
    yield* ready;
    ready = [];
  }
  parser.end(keep);
  yield* ready;
}
