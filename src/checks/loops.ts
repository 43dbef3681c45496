import { SEGMENT } from '../dictionary/index.js';
import { type Finding, makeFinding, printable } from '../findings/index.js';
import { locate, type Read } from '../read/index.js';
import { type Check, NOTHING } from './check.js';

const LS = SEGMENT.LS.index;
const LE = SEGMENT.LE.index;

/** Holds every loop header against its trailer. */
export const loopsCheck: Check = {
  codes: ['loop-open'],
  summary: 'Whether every loop that LS opens is closed by an LE of the same identifier.',
  reference: 'ANSI X12: LE01 repeats LS01',
  run(read) {
    const { block } = read;
    const { many } = read.index;
    if (!many.some((line) => block.kind(line) === LS || block.kind(line) === LE)) return NOTHING;
    const findings: Finding[] = [];
    const open: number[] = [];
    for (const line of many) {
      if (block.kind(line) === LS) open.push(line);
      else if (block.kind(line) === LE) closeLoop(read, line, open, findings);
    }
    // A capture that was cut inside a loop says that it was cut.
    if (read.isComplete)
      for (const line of open) findings.push(report(read, line, `${name(read, line)} is never closed`));
    return findings;
  },
};

function closeLoop(read: Read, line: number, open: number[], findings: Finding[]): void {
  const id = read.block.text(line, 1);
  const from = open.findLastIndex((opened) => read.block.text(opened, 1) === id);
  if (from < 0) {
    findings.push(report(read, line, `${name(read, line)} is closed but was never opened`));
    return;
  }
  for (const left of open.splice(from).slice(1))
    findings.push(report(read, left, `${name(read, left)} is never closed`));
}

const name = (read: Read, line: number): string => `Loop ${printable(read.block.text(line, 1) ?? '', 20)}`;

function report(read: Read, line: number, what: string): Finding {
  return makeFinding('loop-open', `${what}: segments may be missing or out of their order.`, {
    ...locate(read, line),
    advice: 'Read the machine again; if it says the same, it is the way of this machine and a profile can say so.',
  });
}
