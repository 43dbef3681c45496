import { type Finding, makeFinding } from '../findings/index.js';
import { locate, type Read } from '../read/index.js';
import { type Check, NOTHING } from './check.js';
import { countOf, READ_AGAIN } from './wording.js';

/** Says where control characters stand, and where lines were too long to be taken in whole. */
export const charactersCheck: Check = {
  codes: ['control-character', 'overlong-element'],
  summary: 'Whether lines hold control characters, or were longer than allowed.',
  reference: 'memory (EVA-DTS text is printable ASCII); the longest line is an option of this program',
  run(read) {
    const { controlLines, skips } = read.block.parts;
    if (controlLines.length === 0 && skips.length === 0) return NOTHING;
    const findings: Finding[] = [];
    const controls = controlLines.filter((line) => isInside(read, line));
    if (controls.length > 0) findings.push(describeControls(read, controls));
    for (const skip of skips) if (isInside(read, skip.line)) findings.push(describeSkip(read, skip.line, skip.length));
    return findings;
  },
};

const isInside = (read: Read, line: number): boolean => line >= read.range.from && line < read.range.to;

function describeControls(read: Read, lines: readonly number[]): Finding {
  return makeFinding(
    'control-character',
    `${countOf(lines.length, 'line holds', 'lines hold')} control characters; they are shown as \\xNN.`,
    locate(read, lines[0]!),
  );
}

function describeSkip(read: Read, line: number, length: number): Finding {
  return makeFinding(
    'overlong-element',
    `A line is longer than allowed: ${countOf(length, 'byte')} of it were passed over.`,
    { ...locate(read, line), advice: READ_AGAIN },
  );
}
