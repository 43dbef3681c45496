import type { Finding } from '../findings/index.js';
import type { AttentionCause } from './attention-item.js';
import { CAUSE_OF_CODE, causeOfVisit, isAboutCapture, isListed, isToReadAgain } from './causes.js';
import { findNotRead } from './find-not-read.js';
import { findSalesStopped } from './find-sales-stopped.js';
import { findSilentDevices } from './find-silent.js';
import { findSoldOut } from './find-sold-out.js';
import type { DayRead, MachineDay } from './machine-day.js';

/** Findings by the cause under which they are listed, each once. */
export type FindingsByCause = ReadonlyMap<AttentionCause, readonly Finding[]>;

/**
 * All that has to be looked at about one machine, by cause: what its captures, intervals and visits showed, and what only
 * shows over a day. Every finding that is more than a note is under one cause.
 */
export function gatherFindings(day: MachineDay): FindingsByCause {
  const gathered = new Map<AttentionCause, Map<string, Finding>>();
  const put = (cause: AttentionCause, finding: Finding): void => {
    if (!isListed(finding)) return;
    const findings = gathered.get(cause) ?? new Map<string, Finding>();
    gathered.set(cause, findings);
    // Said first of a capture itself, then of what rests on it: the advice is that for the capture.
    if (!findings.has(keyOf(finding))) findings.set(keyOf(finding), finding);
  };
  for (const read of day.reads) for (const finding of read.findings) put(causeInRead(finding, read), finding);
  for (const visit of day.visits) {
    const cause = causeOfVisit(visit);
    for (const finding of visit.findings) put(isOfBag(finding) ? cause : causeOf(finding), finding);
  }
  const others = [
    ...day.intervals.flatMap(({ findings }) => findings),
    ...day.findings,
    ...findNotRead(day),
    ...findSilentDevices(day),
    ...findSoldOut(day),
    ...findSalesStopped(day),
  ];
  for (const finding of others) put(causeOf(finding), finding);
  return new Map([...gathered].map(([cause, findings]) => [cause, [...findings.values()]]));
}

/** One and the same thing said twice, as of an interval that a visit was settled from, is listed once. */
function keyOf({ code, message, file, read, element, column, row }: Finding): string {
  return JSON.stringify([code, message, file, read, element, column, row]);
}

function causeInRead(finding: Finding, { findings }: DayRead): AttentionCause {
  return isAboutCapture(finding) && isToReadAgain(findings) ? 'read-again' : causeOf(finding);
}

/** A read with faults that is left out of the accounts is to be read again, wherever that is said. */
function causeOf(finding: Finding): AttentionCause {
  const isFault = finding.severity === 'fault';
  const isUnusable = finding.code === 'capture-unusable' || isAboutCapture(finding);
  return isFault && isUnusable ? 'read-again' : CAUSE_OF_CODE[finding.code];
}

function isOfBag(finding: Finding): boolean {
  return CAUSE_OF_CODE[finding.code] === 'bag-open';
}
