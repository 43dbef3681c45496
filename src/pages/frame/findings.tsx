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
  /** At most so many are shown, the worst; default: {@link MOST_FINDINGS}. */
  readonly most?: number;
}

/** So many findings are shown in one list: however hostile a capture is, its page can be opened. */
const MOST_FINDINGS = 60;

/** Of findings with one code and weight so many are shown; the rest is counted. */
const MOST_ALIKE = 6;

/** Findings, worst first, each with what to do and where it stands. The cautions of their advice are `Cautions`'s to show. */
export function Findings({ findings, most = MOST_FINDINGS, ...context }: FindingsProps) {
  if (findings.length === 0) return null;
  const groups = groupAlike(findings).map(cutAlike);
  const entries = groups.flatMap(({ shown, rest }) => [...shown, ...(rest > 0 ? [{ like: shown[0]!, rest }] : [])]);
  const cut = entries.slice(0, most);
  const told = cut.reduce((sum, entry) => sum + ('rest' in entry ? entry.rest : 1), 0);
  return (
    <ul class="findings">
      {cut.map((entry, place) =>
        'rest' in entry ? (
          <MoreAlike key={place} {...entry} />
        ) : (
          <OneFinding key={place} finding={entry} {...context} />
        ),
      )}
      {told === findings.length ? null : <li>And {findings.length - told} more findings, none of them worse.</li>}
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

/** The first of some of one kind, and how many there are beside. */
function cutAlike(group: readonly Finding[]): { readonly shown: readonly Finding[]; readonly rest: number } {
  const rest = group.length - MOST_ALIKE;
  return rest > 1 ? { shown: group.slice(0, MOST_ALIKE), rest } : { shown: group, rest: 0 };
}

function MoreAlike({ like, rest }: { readonly like: Finding; readonly rest: number }) {
  return (
    <li>
      <p>
        <SeverityMark severity={like.severity} /> And {rest} more of this kind (<code>{like.code}</code>).
      </p>
    </li>
  );
}

type OneFindingProps = Omit<FindingsProps, 'findings' | 'most'> & { readonly finding: Finding };

function OneFinding({ finding, linkOf, ...context }: OneFindingProps) {
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
        {place === '' ? null : <bdi>{link === undefined ? place : <a href={link}>{place}</a>}</bdi>}
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
