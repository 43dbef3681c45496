import { takeRead } from '../../captures/index.js';
import { resolveRead } from '../../checks/index.js';
import { compareSeverity } from '../../findings/index.js';
import type { TakenRead } from '../../interval/index.js';
import { machineKey } from '../../model/index.js';
import { type CheckJson, checkToJson } from '../../report/index.js';
import { type Capture, type Known, readEach } from './capture.js';
import { describeCapture } from './capture-line.js';
import { describeBetween, NOTHING_BETWEEN } from './describe-between.js';
import { describeColumns } from './describe-columns.js';
import type { BetweenView, CaptureView } from './messages.js';

/** Which read of which capture is looked at. */
export interface Looking {
  readonly id: number;
  readonly capture: Capture;
  /** Number of the read in its file. */
  readonly read: number;
}

/** A capture opened, and its read as the accounts take it; null where it has none of that number. */
export interface OpenedCapture {
  readonly view: CaptureView;
  readonly taken: TakenRead | null;
}

/** Open a capture again and describe it, all but what happened between its reads and others. */
export async function openCapture({ id, capture, read }: Looking, known: Known): Promise<OpenedCapture> {
  const { path } = capture;
  const found: TakenRead[] = [];
  let readCount = 0;
  await readEach([capture], (_, each) => {
    if (each.number === read) found.push(takeRead(path, each, known));
    readCount++;
  });
  const [taken = null] = found;
  const view: CaptureView = {
    id,
    check: describeCheck(capture),
    read,
    readCount,
    columns: taken === null ? [] : describeColumns(taken.read, resolveRead(path, taken.read, known).plan),
    currency: taken?.currency ?? null,
    decimals: taken?.decimals ?? null,
    cautions: describeCapture(id, capture.parts).cautions,
    between: null,
  };
  return { view, taken };
}

/** The check of a file as one, also where it was told in parts. */
function describeCheck({ path, parts }: Capture): CheckJson {
  const { verdict, headline } = describeCapture(0, parts);
  const reads = parts.flatMap((part) => part.reads);
  const findings = parts.flatMap((part) => part.findings).sort(compareSeverity);
  return checkToJson({ file: path, verdict, headline, reads, findings });
}

/**
 * What happened at the machine of a read just before and after it, by all captures there are of it.
 *
 * @param knownOf - what is known of a capture besides its bytes
 */
export async function compareWithOthers(
  { capture }: Pick<Looking, 'capture'>,
  taken: TakenRead,
  captures: readonly Capture[],
  knownOf: (capture: Capture) => Known,
): Promise<BetweenView> {
  const key = machineKey(taken);
  if (key === null) return NOTHING_BETWEEN;
  const reads: TakenRead[] = [];
  const ofMachine = captures.filter(({ keys }) => keys.has(key));
  await readEach(ofMachine, (other, read) => {
    const isItself = other === capture && read.number === taken.read.number;
    const each = isItself ? taken : takeRead(other.path, read, knownOf(other));
    if (machineKey(each) === key) reads.push(each);
  });
  return describeBetween(reads, knownOf(capture).roster, taken);
}
