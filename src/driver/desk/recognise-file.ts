import type { Finding } from '../../findings/index.js';
import { decimalsFromRoster, readCapturesList, readMachines, readPlan, type Sheet } from '../../sheets/index.js';

/** What a file is. `other-sheet`: a sheet of the office's that says nothing of captures, such as counts of money. */
export type FileKind = 'capture' | 'machines' | 'plan' | 'captures list' | 'other-sheet';

/** So many bytes from a file's start tell what it is. */
export const TELLING_BYTES = 8 * 1024;

/** A segment at a line's start that no sheet has and almost every capture, also one cut at its front. */
const SEGMENT_LINE = /(?:^|[\r\n])(?:DXS|ST|ID\d|CB\d|VA\d|PA\d|CA\d{1,2}|DA\d|EA\d|G85|SE|DXE|MA5)\*/;
const LATIN = new TextDecoder('latin1');

/**
 * Tell an office sheet from a capture by what stands in it: a file's name is no evidence. A sheet is what its reader finds
 * all columns in that it must have; of two such the one with fewer columns left over.
 *
 * @param head - up to {@link TELLING_BYTES} bytes from the file's start
 */
export function recogniseFile(head: Uint8Array): FileKind {
  if (SEGMENT_LINE.test(LATIN.decode(head))) return 'capture';
  const sheet: Sheet = { file: 'sheet', content: head };
  // With decimals for every machine, so that amounts do not count against a plan.
  const plan = readPlan(sheet, decimalsFromRoster([], 0));
  if (hasItsColumns(plan.findings)) return 'plan';
  if (hasItsColumns(readCapturesList(sheet).findings)) return 'captures list';
  const machines = readMachines(sheet);
  if (!hasItsColumns(machines.findings)) return 'capture';
  // Other sheets name machines too: only one that says how to know them is of use here.
  return machines.rows.some(({ asset, serial }) => asset !== null || serial !== null) ? 'machines' : 'other-sheet';
}

function hasItsColumns(findings: readonly Finding[]): boolean {
  return !findings.some(({ code }) => code === 'sheet-column-missing' || code === 'sheet-unreadable');
}
