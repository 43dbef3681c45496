import { type Finding, printable } from '../../findings/index.js';
import { groupAlike } from '../../report/text/alike-findings.js';
import { type KnownPlace, placeParts } from '../../report/text/finding-place.js';
import { SeverityMark } from './marks.js';
import { LONGEST_SENTENCE, Shown } from './shown.js';

/** What a list of findings shows. */
export interface FindingsProps extends KnownPlace {
  readonly findings: readonly Finding[];
  /** Where a finding's element is shown; undefined for nowhere. */
  readonly linkOf?: (finding: Finding) => string | undefined;
  /** At most so many are shown, the worst; default: {@link MOST_FINDINGS}. */
  readonly most?: number;
}

/** So many findings are shown in one list: however hostile a capture is, its page can be opened. */
const MOST_FINDINGS = 60;

/** Findings, worst first, each with what to do and where it stands. The cautions of their advice are `Cautions`'s to show. */
export function Findings({ findings, most = MOST_FINDINGS, ...context }: FindingsProps) {
  if (findings.length === 0) return null;
  const groups = groupAlike(findings);
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
  const place = printable(placeParts(finding, context, (file) => `file ${file}`).join(', '), LONGEST_PLACE);
  const link = linkOf?.(finding);
  return (
    <li>
      <p>
        <SeverityMark severity={severity} /> <Shown text={message} max={LONGEST_SENTENCE} />
      </p>
      {advice === undefined ? null : (
        <p>
          <strong>Do:</strong> <Shown text={advice} max={LONGEST_SENTENCE} />
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
