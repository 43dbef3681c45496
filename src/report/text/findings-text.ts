import { type Finding, printable } from '../../findings/index.js';
import { groupAlike } from './alike-findings.js';
import { type KnownPlace, placeParts } from './finding-place.js';
import type { Style } from './style.js';
import { hangText } from './wrap-text.js';

const LONGEST_TEXT = 1200;
const LABEL_WIDTH = 7;

/** What a finding's place need not say, since the report around it does. */
export interface ShownContext extends KnownPlace {
  /** Spaces before every line. */
  readonly indent?: string;
}

/** Findings for a person: worst first, each with what to do and where it stands. Many of one kind are cut to a few. */
export function layFindings(findings: readonly Finding[], style: Style, context: ShownContext = {}): string[] {
  return groupAlike(findings).flatMap(({ shown, rest }) => {
    const lines = shown.flatMap((finding) => layFinding(finding, style, context));
    return rest > 0 ? [...lines, sayMore(shown[0]!, rest, context)] : lines;
  });
}

function labelOf(severity: Finding['severity'], { indent = '' }: ShownContext): string {
  return indent + severity.padEnd(LABEL_WIDTH);
}

function sayMore({ severity, code }: Finding, rest: number, context: ShownContext): string {
  return `${labelOf(severity, context)}And ${rest} more of this kind (${code}); --json lists them all.`;
}

function layFinding(finding: Finding, style: Style, context: ShownContext): string[] {
  const { severity, message, advice } = finding;
  const label = labelOf(severity, context);
  const [first, ...rest] = hangText(label, printable(message, LONGEST_TEXT));
  const indent = ' '.repeat(label.length);
  const place = placeWords(finding, context);
  return [
    severity === 'note' ? first! : style.bold(label) + first!.slice(label.length),
    ...rest,
    ...(advice === undefined ? [] : hangText(`${indent}Do: `, printable(advice, LONGEST_TEXT))),
    ...hangText(indent, place).map(style.dim),
  ];
}

/** Where a finding stands, what was expected there, and its code, which the README explains. */
function placeWords(finding: Finding, context: ShownContext): string {
  return printable([...placeParts(finding, context), finding.code].join(', '), LONGEST_TEXT);
}
