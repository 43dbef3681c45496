import type { AttentionItem } from '../../attention/index.js';
import { type CautionName, cautionsOf } from '../../findings/index.js';
import { describeStake } from '../../report/index.js';
import {
  CautionMarks,
  Findings,
  Heading,
  type HeadingLevel,
  LONGEST_SENTENCE,
  SeverityMark,
  Shown,
  type Site,
} from '../frame/index.js';

/** Findings of one item that are shown here; all of them are on the machine's page and in the day's data. */
const MOST_FINDINGS = 5;

/** What a list of things to look at shows. */
export interface AttentionListProps {
  /** Worst first. */
  readonly items: readonly AttentionItem[];
  /** Number of the first, from 1. */
  readonly start?: number;
  readonly site: Site;
  readonly level: HeadingLevel;
}

/** What a person has to look at, worst first: where, what it may cost, what is wrong, what to do. */
export function AttentionList({ items, start = 1, site, level }: AttentionListProps) {
  if (items.length === 0) return <p>Nothing to look at.</p>;
  const cautions = cautionsOf(items);
  return (
    <ol class="look" start={start}>
      {items.map((item, place) => (
        <AttentionEntry key={place} item={item} site={site} level={level} cautions={cautions} />
      ))}
    </ol>
  );
}

/** What one entry shows. */
export interface AttentionEntryProps {
  readonly item: AttentionItem;
  readonly site: Site;
  readonly level: HeadingLevel;
  /** Those of the page, by which the entry's are numbered. */
  readonly cautions: readonly CautionName[];
}

/** One thing to look at. */
export function AttentionEntry({ item, site, level, cautions }: AttentionEntryProps) {
  const { severity, stake, what, todo, findings, machine } = item;
  return (
    <li>
      <Heading level={level}>
        <Whereabouts item={item} site={site} /> <SeverityMark severity={severity} />
      </Heading>
      <p>
        <strong>{capitalize(describeStake(item))}.</strong>{' '}
        <span class="faint">
          <Shown text={stake.how} max={LONGEST_SENTENCE} />
        </span>
      </p>
      <p>
        <Shown text={what} max={LONGEST_SENTENCE} />
      </p>
      <p>
        <strong>Do:</strong> <Shown text={todo} max={LONGEST_SENTENCE} />{' '}
        <CautionMarks own={item.cautions} all={cautions} />
      </p>
      {findings.length === 0 ? null : (
        <details>
          <summary>What was found ({findings.length})</summary>
          <Findings findings={findings} machine={machine ?? undefined} most={MOST_FINDINGS} />
        </details>
      )}
    </li>
  );
}

const capitalize = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function Whereabouts({ item: { machine, location }, site }: Pick<AttentionEntryProps, 'item' | 'site'>) {
  const place = location === null ? null : <Shown text={location} />;
  const link = machine === null ? null : site.machinePages.linkTo(machine);
  const name = machine === null ? 'No machine' : <Shown text={machine} />;
  return (
    <>
      {link === null ? name : <a href={link}>{name}</a>}
      {place === null ? null : ', '}
      {place}
    </>
  );
}
