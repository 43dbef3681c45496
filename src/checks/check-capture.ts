import { compareSeverity, type Finding, makeFinding } from '../findings/index.js';
import { machineKey } from '../model/index.js';
import { type CaptureEnd, type CaptureFile, LimitedFindings, type Read, readCaptures } from '../read/index.js';
import { Roster } from '../sheets/index.js';
import { type CheckContext, CLOCK_TOLERANCE_MINUTES } from './check.js';
import { type CheckCircumstances, makeCheckContext } from './check-context.js';
import { checkRead } from './check-read.js';
import type { FirstArrivals } from './first-arrivals.js';
import type { LastGoodReads } from './last-good-reads.js';
import { type ReadSummary, summarizeRead } from './read-summary.js';
import { type CaptureCircumstances, resolveRead } from './resolve-read.js';
import { judge, type Verdict, writeHeadline } from './verdict.js';

/** What may be known of a capture besides its bytes, and how strictly it is judged. Everything is optional. */
export interface CaptureCheckOptions extends Partial<Omit<CaptureCircumstances, 'defaults'>> {
  /** ISO 4217 alphabetic code and decimals, where neither capture nor roster says them. */
  readonly currency?: string | null;
  readonly decimals?: number | null;
  /** How far a machine's clock may be off, in minutes. Default 10. */
  readonly clockToleranceMinutes?: number;
  /** Earlier good reads of the machines: what a cut read leaves out is told by them. Good reads are added. */
  readonly lastGood?: LastGoodReads;
  /** When reads came first: a copy that came later says nothing of the clock. Reads are added. */
  readonly arrivals?: FirstArrivals;
  /** A doubt counts as a fault. */
  readonly strict?: boolean;
}

/** What is said of one file. */
export interface CaptureCheck {
  readonly file: string;
  readonly verdict: Verdict;
  /** One line: the verdict and the one thing to do. */
  readonly headline: string;
  /** The reads in the order of the file; of a file of very many only the first, and a finding says so. */
  readonly reads: readonly ReadSummary[];
  /** Worst first. */
  readonly findings: readonly Finding[];
}

/** A read with its findings and all that was known of it when it was checked. */
export interface CheckedRead {
  readonly read: Read;
  readonly context: CheckContext;
  readonly findings: readonly Finding[];
}

const NO_ROSTER = new Roster();

/**
 * Checks a file read by read, as they come out of a stream: only summaries and findings are kept.
 *
 * @example
 * const checker = new CaptureChecker('a.dex');
 * const reader = new CaptureReader();
 * reader.push(chunk, (read) => checker.addRead(read));
 * const check = checker.end(reader.end((read) => checker.addRead(read)));
 */
export class CaptureChecker {
  readonly #file: string;
  readonly #options: CaptureCheckOptions;
  readonly #circumstances: CheckCircumstances;
  readonly #reads: ReadSummary[] = [];
  readonly #findings = new LimitedFindings();
  #readCount = 0;

  constructor(file: string, options: CaptureCheckOptions = {}) {
    this.#file = file;
    this.#options = options;
    this.#circumstances = toCircumstances(options);
  }

  /** Check one read of the file. */
  addRead(read: Read): CheckedRead {
    const { lastGood, arrivals } = this.#options;
    const resolved = resolveRead(this.#file, read, this.#circumstances);
    const key = machineKey({ machine: resolved.machine, read });
    const isLaterCopy = arrivals?.isLaterCopy(key, read, resolved.receivedAt) ?? false;
    const known = { isLaterCopy, ...(lastGood === undefined ? {} : { lastGood: lastGood.find(key) }) };
    const context = makeCheckContext(this.#file, read, { ...this.#circumstances, ...known }, resolved);
    const findings = checkRead(read, context);
    this.addChecked(summarizeRead(read, context), findings);
    if (lastGood !== undefined && judge(findings) !== 'read-again') lastGood.keep(key, read);
    return { read, context, findings };
  }

  /** Add one read of the file that was checked before. */
  addChecked(summary: ReadSummary, findings: readonly Finding[]): void {
    this.#readCount++;
    if (this.#reads.length < MOST_READS) this.#reads.push(summary);
    for (const finding of findings) this.#findings.push(finding);
  }

  /** Say that the file has ended, with what was found about it as a whole. */
  end(end: Pick<CaptureEnd, 'findings'>): CaptureCheck {
    const file = this.#file;
    const ofFile = end.findings.map((finding) => ({ file, ...finding }));
    const findings = [...ofFile, ...this.#findings.list()];
    if (this.#readCount > MOST_READS) findings.push(describeUnlisted(file, this.#readCount));
    if (findings.length > 1) findings.sort(compareSeverity);
    const verdict = judge(findings, this.#options.strict);
    return { file, verdict, headline: writeHeadline(verdict, findings), reads: this.#reads, findings };
  }
}

/** So many reads of one file are listed: thousands of machines' reads of a day, or a file made to fill the memory. */
const MOST_READS = 100_000;

function describeUnlisted(file: string, count: number): Finding {
  return makeFinding(
    'reads-unlisted',
    `The file holds ${count} reads; all were checked, but only the first ${MOST_READS} are listed.`,
    { file },
  );
}

/** The options as the context of a read is made from them: once a file. */
function toCircumstances(options: CaptureCheckOptions): CheckCircumstances {
  const { currency = null, decimals = null } = options;
  return {
    roster: options.roster ?? NO_ROSTER,
    defaults: { currency, decimals },
    saidMachine: options.saidMachine ?? null,
    receivedAt: options.receivedAt ?? null,
    fileTime: options.fileTime ?? null,
    clockToleranceMinutes: options.clockToleranceMinutes ?? CLOCK_TOLERANCE_MINUTES,
  };
}

/**
 * Check a file that is in memory whole.
 *
 * @param file - its name, as it is to stand in findings; the captures list is looked up by its last part
 * @param capture - its bytes, or what was read from them
 */
export function checkCapture(
  file: string,
  capture: CaptureFile | Uint8Array,
  options: CaptureCheckOptions = {},
): CaptureCheck {
  const { reads, findings } = capture instanceof Uint8Array ? readCaptures(capture) : capture;
  const checker = new CaptureChecker(file, options);
  for (const read of reads) checker.addRead(read);
  return checker.end({ findings });
}

/**
 * What is said of a file that could not be opened or read.
 *
 * @param why - the reason in words that can stand after "could not be read"
 */
export function reportUnreadable(file: string, why: string): CaptureCheck {
  const finding = makeFinding('unreadable-file', `The file could not be read: ${why}.`, {
    file,
    advice: 'Check the name and that you may read it.',
  });
  return {
    file,
    verdict: 'read-again',
    headline: writeHeadline('read-again', [finding]),
    reads: [],
    findings: [finding],
  };
}
