import { nameOfSummary } from '../../checks/index.js';
import { printable } from '../../findings/index.js';
import { timeWords } from '../../report/text/words.js';
import type { CaptureView } from '../desk/messages.js';
import { Between } from './between.js';
import { ColumnsTable } from './columns-table.js';
import { FindingsList } from './findings-list.js';
import { integrityWords, machineWords, moneyWords, segmentWords } from './words.js';

/** Of so many reads of a file one can be chosen. */
const MOST_READS = 200;

interface DetailsProps {
  readonly view: CaptureView;
  readonly onRead: (read: number) => void;
}

/** What the answer rests on: findings, what the read says of itself, its columns, and what happened between reads. */
export function CaptureDetails({ view, onRead }: DetailsProps) {
  const { check, read, readCount, between } = view;
  const shown = check.reads[read];
  return (
    <>
      <section aria-labelledby="findings">
        <h3 id="findings">Findings</h3>
        {check.findings.length === 0 ? (
          <p>Nothing was found.</p>
        ) : (
          <FindingsList findings={check.findings} file={check.file} />
        )}
      </section>
      {readCount > 1 ? <ReadChoice view={view} onRead={onRead} /> : null}
      {shown === undefined ? null : (
        <section aria-labelledby="read">
          <h3 id="read">{readCount > 1 ? `Read ${read + 1} of ${readCount}` : 'The read'}</h3>
          <dl class="facts">
            {[
              ['Machine', machineWords(shown.machine)],
              ['Clock', timeWords(shown.clock)],
              ['Received', shown.receivedAt === null ? 'not known' : timeWords(shown.receivedAt)],
              ['Segments', segmentWords(shown)],
              ['Integrity', integrityWords(shown.integrity)],
              ['Columns', String(shown.columns)],
              ['Money', moneyWords(shown.currency, shown.decimals)],
              ['File', printable(check.file, 200)],
            ].map(([name, text]) => (
              <div key={name}>
                <dt>{name}</dt>
                <dd>{text}</dd>
              </div>
            ))}
          </dl>
          <h3>Columns</h3>
          {check.verdict === 'read-again' ? (
            <p>
              <strong>This capture is to be read again: any figure below may be wrong.</strong>
            </p>
          ) : null}
          <ColumnsTable view={view} />
        </section>
      )}
      {between === null ? (
        <p>Looking for other reads of this machine.</p>
      ) : (
        <Between between={between} headLevel="one" />
      )}
    </>
  );
}

function ReadChoice({ view: { check, read, readCount }, onRead }: DetailsProps) {
  return (
    <p class="choice">
      <label for="which-read">The file holds {readCount} reads. Shown below: </label>
      <select
        id="which-read"
        value={String(read)}
        onChange={(event) => onRead(Number((event.target as HTMLSelectElement).value))}
      >
        {check.reads.slice(0, MOST_READS).map((each, i) => (
          <option key={i} value={String(i)}>
            {`${i + 1}: ${printable(nameOfSummary(each) ?? '', 40)} ${timeWords(each.clock)}`}
          </option>
        ))}
      </select>
    </p>
  );
}
