// Book: what was taken in, kept for good, and proved to be as it was.
// In: captures, counts and settlements from the layers before. Out: entries, proofs, and what verifying the book shows.
// Must not know: how figures are shown, how commands are typed.
export { checkProof, type ProofCheck } from './check-proof.js';
export { describeEntry } from './describe-entry.js';
export * from './export/index.js';
export * from './intake/index.js';
export { judgeBook, judgeUnopened } from './judge-book.js';
export { makeConsistencyProof, makeInclusionProof } from './make-proof.js';
export { type BookSchemaName, makeBookSchema } from './make-schema.js';
export * from './merkle/index.js';
export { readLeafText } from './read-leaf-text.js';
export * from './shapes.js';
export * from './store/index.js';
export {
  type BookFault,
  type BookFaultKind,
  type BookVerification,
  type VerifyOptions,
  verifyBook,
} from './verify-book.js';
export { type MatchingVerification, putMatchingBack, verifyMatching } from './verify-matching.js';
