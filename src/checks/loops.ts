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
    const open: OpenLoop[] = [];
    const openIds = new Map<string | null, number>();
    for (const line of many) {
      if (block.kind(line) === LS) {
        const id = block.text(line, 1);
        open.push({ id, line });
        openIds.set(id, (openIds.get(id) ?? 0) + 1);
      } else if (block.kind(line) === LE) closeLoop(read, line, open, openIds, findings);
    }
    // A capture that was cut inside a loop says that it was cut.
    if (read.isComplete) for (const { line } of open) findings.push(reportOpen(read, line));
    return findings;
  },
};

interface OpenLoop {
  readonly id: string | null;
  readonly line: number;
}

/** Close the innermost loop of that identifier; those inside it that are still open never will be. */
function closeLoop(
  read: Read,
  line: number,
  open: OpenLoop[],
  openIds: Map<string | null, number>,
  findings: Finding[],
): void {
  const id = read.block.text(line, 1);
  if (!openIds.get(id)) {
    findings.push(report(read, line, `${name(read, line)} is closed but was never opened`));
    return;
  }
  for (;;) {
    const last = open.pop()!;
    openIds.set(last.id, openIds.get(last.id)! - 1);
    if (last.id === id) return;
    findings.push(reportOpen(read, last.line));
  }
}

const reportOpen = (read: Read, line: number): Finding => report(read, line, `${name(read, line)} is never closed`);

const name = (read: Read, line: number): string => `Loop ${printable(read.block.text(line, 1) ?? '', 20)}`;

function report(read: Read, line: number, what: string): Finding {
  return makeFinding('loop-open', `${what}: segments may be missing or out of their order.`, {
    ...locate(read, line),
    advice: 'Read the machine again; if it says the same, it is the way of this machine and a profile can say so.',
  });
}
