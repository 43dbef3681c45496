import { compareSeverity, type Finding, printable } from '../../findings/index.js';
import { dropCautions } from '../../report/text/cautions-text.js';
import { baseName } from '../../sheets/index.js';
import { SeverityMark } from './marks.js';
import { LONGEST_SENTENCE, Shown } from './shown.js';

/** What a list of findings shows. */
export interface FindingsProps {
  readonly findings: readonly Finding[];
  /** What the page says anyway, and the findings need not. */
  readonly file?: string | undefined;
  readonly machine?: string | undefined;
  /** Where a finding's element is shown; undefined for nowhere. */
  readonly linkOf?: (finding: Finding) => string | undefined;
}

/** Of findings with one code and weight so many are shown; the rest is counted. */
const MOST_ALIKE = 6;

/** Findings, worst first, each with what to do and where it stands. The cautions of their advice are `Cautions`'s to show. */
export function Findings({ findings, ...context }: FindingsProps) {
  if (findings.length === 0) return null;
  return (
    <ul class="findings">
      {groupAlike(findings).map((group) => (
        <Alike key={`${group[0]!.severity} ${group[0]!.code}`} group={group} {...context} />
      ))}
    </ul>
  );
}

function groupAlike(findings: readonly Finding[]): Finding[][] {
  const groups = new Map<string, Finding[]>();
  for (const finding of [...findings].sort(compareSeverity)) {
    const key = `${finding.severity} ${finding.code}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [finding]);
    else group.push(finding);
  }
  return [...groups.values()];
}

function Alike({ group, ...context }: Omit<FindingsProps, 'findings'> & { readonly group: readonly Finding[] }) {
  const rest = group.length - MOST_ALIKE;
  const shown = rest > 1 ? group.slice(0, MOST_ALIKE) : group;
  return (
    <>
      {shown.map((finding, place) => (
        <OneFinding key={place} finding={finding} {...context} />
      ))}
      {rest > 1 ? (
        <li>
          <p>
            <SeverityMark severity={group[0]!.severity} /> And {rest} more of this kind (<code>{group[0]!.code}</code>).
          </p>
        </li>
      ) : null}
    </>
  );
}

function OneFinding({ finding, linkOf, ...context }: Omit<FindingsProps, 'findings'> & { readonly finding: Finding }) {
  const { severity, message, advice, code } = finding;
  const place = placeWords(finding, context);
  const link = linkOf?.(finding);
  return (
    <li>
      <p>
        <SeverityMark severity={severity} /> <Shown text={message} max={LONGEST_SENTENCE} />
      </p>
      {advice === undefined ? null : (
        <p>
          <strong>Do:</strong> <Shown text={dropCautions(advice)} max={LONGEST_SENTENCE} />
        </p>
      )}
      <p class="faint">
        {place === '' ? null : link === undefined ? <bdi>{place}</bdi> : <a href={link}>{place}</a>}
        {place === '' ? '' : ', '}
        <code>{code}</code>
      </p>
    </li>
  );
}

const LONGEST_PLACE = 400;

function placeWords(finding: Finding, context: Pick<FindingsProps, 'file' | 'machine'>): string {
  const { file, machine, row, field, line, element, segment, expected, received, related } = finding;
  const from = related?.find((other) => other.file !== undefined && other.file !== file)?.file;
  const parts = [
    machine === undefined || machine === context.machine ? null : `machine ${machine}`,
    file === undefined || file === context.file ? null : `file ${file}`,
    row === undefined ? null : `row ${row}`,
    field === undefined ? null : `column ${field}`,
    line === undefined ? null : `line ${line}`,
    element ?? segment ?? null,
    expected === undefined || row !== undefined ? null : `expected ${expected}`,
    received === undefined || row !== undefined ? null : `found ${received}`,
    from === undefined ? null : `against ${baseName(from)}`,
  ];
  return printable(parts.filter((part) => part !== null).join(', '), LONGEST_PLACE);
}
