import { checkProof, describeEntry, type ProofCheckJson, readLeafText } from '../book/index.js';
import { hangText, printable, readChunks, type Style, sayUnreadable, writeJson } from '../index.js';
import { pushAll } from '../model/index.js';
import { bookCheckProofShape } from './book-option-shapes.js';
import { EXIT } from './exit-status.js';
import { workplaceOf } from './inputs.js';
import { notedHead } from './noted-head.js';
import { readOptions } from './option-shapes.js';
import { printLines } from './print-lines.js';
import { styleFor } from './printer.js';
import type { Terminal } from './terminal.js';

/** Bytes of the longest proof that is read: an entry, which holds the figures of a round at most, and some hashes. */
const LARGEST_PROOF = 64 * 1024 * 1024;

/** `book check-proof`: does a proof hold? Needs neither the book nor the database library. */
export async function runBookCheckProof(
  file: string,
  raw: Record<string, unknown>,
  terminal: Terminal,
): Promise<number> {
  const options = readOptions(bookCheckProofShape, raw);
  const noted = notedHead(options);
  const text = await readText(file, terminal);
  if (text === null) return EXIT.input;
  const proof = parseProof(text);
  const { holds, message } =
    proof === undefined
      ? { holds: false, message: 'This is not a proof: it is not JSON.' }
      : checkProof(proof, noted ?? undefined);
  const check = { holds, message, noted };
  const lines = options.json ? [writeJson(check)] : layProofCheck(check, proof, styleFor(terminal));
  await printLines(lines, terminal);
  return holds ? EXIT.ok : EXIT.faults;
}

async function readText(file: string, terminal: Terminal): Promise<string | null> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  try {
    for await (const chunk of readChunks(file, workplaceOf(terminal))) {
      size += chunk.length;
      if (size > LARGEST_PROOF) return '';
      chunks.push(chunk);
    }
  } catch (error) {
    terminal.stderr.write(`coilbook: ${sayUnreadable(file, error).message}\n`);
    return null;
  }
  return Buffer.concat(chunks).toString('utf8');
}

/** What a proof's file says; undefined when it is not JSON. */
function parseProof(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\ufeff/, ''));
  } catch {
    return undefined;
  }
}

const NOT_HELD =
  'It speaks of the size and root that stand in it. Compare both with those written down elsewhere, or give them with ' +
  '--size and --root: without that, they may be of a book that somebody made.';

/** What came of checking a proof, for a person. */
function layProofCheck({ holds, message, noted }: ProofCheckJson, proof: unknown, style: Style): string[] {
  const answer = holds ? 'The proof holds. ' : 'The proof does not hold. ';
  const lines = hangText('', answer + message).map((line, i) => (i === 0 ? style.bold(line) : line));
  if (!holds) return lines;
  const { leaf } = proof as { readonly leaf?: string };
  const entry = leaf === undefined ? null : readLeafText(leaf);
  if (entry !== null) {
    const said = `${entry.kind}, recorded ${printable(entry.recordedAt, 40)}: ${printable(describeEntry(entry), 300)}`;
    pushAll(lines, ['', ...hangText('  the entry  ', said)]);
  }
  return noted === null ? [...lines, '', ...hangText('', NOT_HELD)] : lines;
}
