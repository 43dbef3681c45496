import * as z from 'zod';
import { printable } from '../findings/index.js';
import { hashLeaf, type TreeHead, verifyConsistency, verifyInclusion } from './merkle/index.js';
import { type BookProof, bookProofSchema, type ConsistencyProof, type InclusionProof } from './shapes.js';
import type { BookHead } from './store/index.js';

/** Whether a proof holds, and what that says, in a sentence. */
export interface ProofCheck {
  readonly holds: boolean;
  readonly message: string;
}

/**
 * Check a proof without the book it is of.
 *
 * A proof that holds speaks of the head that stands in it: only one who wrote that head down elsewhere knows that it is
 * the book's.
 *
 * @param proof - what the proof's JSON says, from anywhere
 * @param noted - a head written down elsewhere, which has to be the proof's: for consistency one of its two
 */
export function checkProof(proof: unknown, noted?: BookHead): ProofCheck {
  const parsed = bookProofSchema.safeParse(proof);
  if (!parsed.success) return fails(`This is not a proof: ${printable(z.prettifyError(parsed.error), 300)}`);
  if (noted !== undefined && !headsOf(parsed.data).some((head) => isSame(head, noted))) {
    return fails('The proof is not about the head that was noted: size or root differ.');
  }
  return parsed.data.proof === 'inclusion' ? checkInclusion(parsed.data) : checkConsistency(parsed.data);
}

function checkInclusion({ entry, head, leaf, path }: InclusionProof): ProofCheck {
  if (numberIn(leaf) !== entry) return fails(`The text in the proof is not that of an entry numbered ${entry}.`);
  const isIn = verifyInclusion({ index: entry, hash: hashLeaf(leaf) }, toTreeHead(head), path.map(fromHex));
  return isIn
    ? { holds: true, message: `Entry ${entry} is in the book of ${head.size} entries with root ${head.root}.` }
    : fails(`It is not shown that entry ${entry} is in the book: text, proof or root were changed.`);
}

function checkConsistency({ earlier, later, path }: ConsistencyProof): ProofCheck {
  return verifyConsistency(toTreeHead(earlier), toTreeHead(later), path.map(fromHex))
    ? {
        holds: true,
        message:
          `The book of ${later.size} entries with root ${later.root} starts with all ${earlier.size} entries of the one ` +
          `with root ${earlier.root}, unchanged.`,
      }
    : fails('It is not shown that the later book starts with the earlier one: entries, proof or roots were changed.');
}

const fails = (message: string): ProofCheck => ({ holds: false, message });

const headsOf = (proof: BookProof): BookHead[] =>
  proof.proof === 'inclusion' ? [proof.head] : [proof.earlier, proof.later];

const isSame = (a: BookHead, b: BookHead): boolean => a.size === b.size && a.root === b.root;

const fromHex = (hex: string): Uint8Array => Buffer.from(hex, 'hex');

const toTreeHead = ({ size, root }: BookHead): TreeHead => ({ size, root: fromHex(root) });

/** The number that an entry's text says it has. */
function numberIn(leaf: string): unknown {
  try {
    return (JSON.parse(leaf) as { readonly seq?: unknown } | null)?.seq;
  } catch {
    return undefined;
  }
}
