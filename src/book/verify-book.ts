import { createHash } from 'node:crypto';
import { hashLeaf, isSameHash, TreeFront, type TreeNode } from './merkle/index.js';
import { type CaptureBody, captureBodySchema } from './shapes.js';
import {
  BookError,
  type BookHead,
  type BookStore,
  type BookTally,
  type Entry,
  type EntryPieces,
  type GuardState,
  writeLeafText,
} from './store/index.js';

/** What does not fit. */
export type BookFaultKind =
  | 'missing' // an entry is not there
  | 'altered' // an entry is not what its leaf in the tree was made of
  | 'tree' // a node of the tree is not what follows from the entries
  | 'bytes' // a file is not the one that was taken in
  | 'reads' // what is recorded of reads is not what it was
  | 'surplus' // there is something that no entry accounts for
  | 'unreadable' // the database can not read it
  | 'other-head'; // all fits together, but it is not the book that was noted

/** The first thing in a book that does not fit. */
export interface BookFault {
  readonly kind: BookFaultKind;
  /** Number of the entry; null where it can not be told which. */
  readonly entry: number | null;
  readonly message: string;
}

/** What became of verifying a book. */
export interface BookVerification extends GuardState {
  /** Entries that fit, and the root over them as worked out anew. */
  readonly head: BookHead;
  readonly fault: BookFault | null;
}

/** Options of {@link verifyBook}. */
export interface VerifyOptions {
  /** A head that was written down elsewhere: without one, a book made anew from end to end fits as well. */
  readonly noted?: BookHead;
  /** Called after each entry that fits, with the number of those done and of all. */
  readonly onProgress?: (done: number, all: number) => void;
}

/**
 * Work a book out anew from what is stored: every file's hash from its bytes, every leaf from its entry, every node and the
 * root from the leaves. Ends at the first entry that does not fit. What is added meanwhile is left for the next time.
 *
 * @throws BookError (as a rejection) when the book can not be read for another reason than being damaged
 */
export async function verifyBook(book: BookStore, options: VerifyOptions = {}): Promise<BookVerification> {
  const guards = await book.guards();
  const walk = new BookWalk(book, options);
  const fault = await walk.findFault().catch((error: unknown) => {
    if (!(error instanceof BookError) || error.kind !== 'corrupted') throw error;
    const entry = walk.front.size;
    return { kind: 'unreadable' as const, entry, message: `Entry ${entry} can not be read. ${error.message}` };
  });
  const { size } = walk.front;
  return { head: { size, root: Buffer.from(walk.front.root()).toString('hex') }, fault, ...guards };
}

const UNCOUNTED: BookFault = {
  kind: 'unreadable',
  entry: null,
  message: 'What is stored can not be counted: a part of the database is damaged that no entry could be named for.',
};

/** What a piece of work gives; null where the book is damaged. */
async function unlessDamaged<T>(work: () => Promise<T>): Promise<T | null> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof BookError && error.kind === 'corrupted') return null;
    throw error;
  }
}

/** One pass over a book, from the first entry on. */
class BookWalk {
  /** The tree over the entries that fit so far. */
  front = TreeFront.EMPTY;
  readonly #book: BookStore;
  readonly #options: VerifyOptions;
  #nodes = 0;
  #blobs = 0;
  #reads = 0;

  constructor(book: BookStore, options: VerifyOptions) {
    this.#book = book;
    this.#options = options;
  }

  async findFault(): Promise<BookFault | null> {
    const tally = await unlessDamaged(() => this.#book.tally());
    let fault = this.#compareNoted();
    for await (const entry of this.#entries(tally?.entries)) {
      fault ??= await this.#checkEntry(entry);
      fault ??= this.#compareNoted();
      if (fault !== null) return fault;
      if (tally !== null) this.#options.onProgress?.(this.front.size, tally.entries);
    }
    return tally === null ? UNCOUNTED : (this.#compareTally(tally) ?? fault);
  }

  /** Entries up to a number. Where they can not be read together they come one by one, so that the first bad one is named. */
  async *#entries(to: number | undefined): AsyncGenerator<Entry> {
    let next = 0;
    const together = this.#book.entries(to === undefined ? {} : { to })[Symbol.asyncIterator]();
    for (;;) {
      const step = await unlessDamaged(() => together.next());
      if (step === null) break;
      if (step.done === true) return;
      yield step.value;
      next = step.value.seq + 1;
    }
    for (let entry = await this.#book.entry(next); entry !== null; entry = await this.#book.entry(++next)) yield entry;
  }

  #compareTally(tally: BookTally): BookFault | null {
    const { noted } = this.#options;
    const { size } = this.front;
    if (size < tally.entries || (noted !== undefined && size < noted.size) || this.#nodes < tally.nodes) {
      return { kind: 'missing', entry: size, message: `Entry ${size} is missing.` };
    }
    if (this.#blobs < tally.blobs || this.#reads < tally.reads) {
      return { kind: 'surplus', entry: null, message: 'There are files or reads in the book that no entry speaks of.' };
    }
    return null;
  }

  #compareNoted(): BookFault | null {
    const { noted } = this.#options;
    if (noted?.size !== this.front.size) return null;
    if (Buffer.from(this.front.root()).toString('hex') === noted.root) return null;
    return {
      kind: 'other-head',
      entry: null,
      message: `This is not the book that was noted: its first ${noted.size} entries have another root.`,
    };
  }

  async #checkEntry(entry: Entry): Promise<BookFault | null> {
    const { seq } = entry;
    const expected = this.front.size;
    if (seq !== expected) return { kind: 'missing', entry: expected, message: `Entry ${expected} is missing.` };
    const pieces = await this.#book.piecesOf(seq);
    const { front, nodes } = this.front.append(hashLeaf(writeLeafText(entry)));
    const fault = compareNodes(entry, nodes, pieces.nodes) ?? (await this.#checkPieces(entry, pieces));
    if (fault !== null) return fault;
    this.front = front;
    this.#nodes += nodes.length;
    return null;
  }

  async #checkPieces(entry: Entry, pieces: EntryPieces): Promise<BookFault | null> {
    const { seq, kind } = entry;
    const isOfFile = kind === 'capture-taken' || kind === 'set-aside';
    const body = isOfFile ? parseCaptureBody(entry.body) : null;
    if (isOfFile && body === null) return alteredFault(entry);
    const reads = body?.reads ?? 0;
    if (pieces.reads.count !== reads || (body !== null && pieces.reads.sha256 !== body.readsSha256)) {
      return { kind: 'reads', entry: seq, message: `What is recorded of the reads of entry ${seq} was changed.` };
    }
    if (body !== null && !(await this.#isSameFile(body, pieces.blob))) {
      return { kind: 'bytes', entry: seq, message: `The file kept with entry ${seq} is not the one it records.` };
    }
    this.#reads += reads;
    if (body?.isKept === true && entry.refersTo === null) this.#blobs++;
    return null;
  }

  async #isSameFile(body: CaptureBody, blob: EntryPieces['blob']): Promise<boolean> {
    if (!body.isKept) return blob === null;
    if (blob?.sha256 !== body.sha256 || blob.size !== body.size) return false;
    const hash = createHash('sha256');
    for await (const part of this.#book.partsOf(body.sha256)) hash.update(part);
    return hash.digest('hex') === body.sha256;
  }
}

/** Hold the nodes that an entry makes complete against those stored. */
function compareNodes(entry: Entry, nodes: readonly TreeNode[], stored: readonly TreeNode[]): BookFault | null {
  const { seq } = entry;
  const at = nodes.findIndex(({ level, index, hash }) => {
    const same = stored.find((node) => node.level === level && node.index === index);
    return same === undefined || !isSameHash(same.hash, hash);
  });
  if (at < 0) return null;
  if (at === 0) return alteredFault(entry);
  return {
    kind: 'tree',
    entry: seq,
    message: `The tree above entry ${seq} does not fit: an entry up to it, or the tree, was changed.`,
  };
}

const alteredFault = ({ seq, kind }: Entry): BookFault => ({
  kind: 'altered',
  entry: seq,
  message: `Entry ${seq} (${kind}) is not what was recorded.`,
});

function parseCaptureBody(body: string): CaptureBody | null {
  try {
    return captureBodySchema.parse(JSON.parse(body));
  } catch {
    return null;
  }
}
