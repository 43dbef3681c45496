import { compareSeverity, type Finding, printable } from '../../findings/index.js';
import { baseName } from '../../sheets/index.js';
import { dropCautions } from './cautions-text.js';
import type { Style } from './style.js';
import { hangText } from './wrap-text.js';

const LONGEST_TEXT = 1200;
const LABEL_WIDTH = 7;

/** What a finding's place need not say, since the report around it does. */
export interface ShownContext {
  readonly file?: string | undefined;
  readonly machine?: string | undefined;
  /** Spaces before every line. */
  readonly indent?: string;
}

/** Of findings with one code and weight so many are shown; the rest is counted. */
const MOST_ALIKE = 6;

/** Findings for a person: worst first, each with what to do and where it stands. Many of one kind are cut to a few. */
export function layFindings(findings: readonly Finding[], style: Style, context: ShownContext = {}): string[] {
  const groups = new Map<string, Finding[]>();
  for (const finding of [...findings].sort(compareSeverity)) {
    const key = `${finding.severity} ${finding.code}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [finding]);
    else group.push(finding);
  }
  return [...groups.values()].flatMap((group) => {
    const rest = group.length - MOST_ALIKE;
    const shown = rest > 1 ? group.slice(0, MOST_ALIKE) : group;
    const lines = shown.flatMap((finding) => layFinding(finding, style, context));
    return rest > 1 ? [...lines, sayMore(group[0]!, rest, context)] : lines;
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
    ...(advice === undefined ? [] : hangText(`${indent}Do: `, printable(dropCautions(advice), LONGEST_TEXT))),
    ...hangText(indent, place).map(style.dim),
  ];
}

/** Where a finding stands, what was expected there, and its code, which the README explains. */
function placeWords(finding: Finding, context: ShownContext): string {
  const { file, machine, row, field, line, element, segment, expected, received, related, code } = finding;
  const from = related?.find((place) => place.file !== undefined && place.file !== file)?.file;
  const parts = [
    machine === undefined || machine === context.machine ? null : `machine ${machine}`,
    file === undefined || file === context.file ? null : file,
    row === undefined ? null : `row ${row}`,
    field === undefined ? null : `column ${field}`,
    line === undefined ? null : `line ${line}`,
    element ?? segment ?? null,
    expected === undefined || row !== undefined ? null : `expected ${expected}`,
    received === undefined || row !== undefined ? null : `found ${received}`,
    from === undefined ? null : `against ${baseName(from)}`,
    code,
  ];
  return printable(parts.filter((part) => part !== null).join(', '), LONGEST_TEXT);
}
