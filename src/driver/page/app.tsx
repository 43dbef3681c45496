import type { Verdict } from '../../checks/index.js';
import { printable } from '../../findings/index.js';
import { timeWords } from '../../report/text/words.js';
import type { CaptureLine } from '../desk/messages.js';
import { Answer, worstOf } from './answer.js';
import { Between } from './between.js';
import { CaptureDetails } from './capture-details.js';
import { Chooser } from './chooser.js';
import { FindingsList } from './findings-list.js';
import { ResultsList } from './results-list.js';
import { sayStatus } from './say-status.js';
import type { PageState } from './state.js';
import { countWords, todoOf, VERDICT_WORDS } from './words.js';

/** What a person can do on the page. */
export interface Deeds {
  readonly takeFiles: (files: readonly File[], keepsCaptures: boolean) => void;
  readonly useFileTime: (isReceived: boolean) => void;
  readonly stop: () => void;
  readonly clear: () => void;
  readonly look: (id: number | null) => void;
  readonly leaf: (choice: Verdict | 'all', page: number) => void;
  readonly lookAtRead: (read: number) => void;
  readonly share: () => void;
  readonly saveJson: () => void;
  readonly print: () => void;
}

interface AppProps {
  readonly state: PageState;
  readonly usesFileTime: boolean;
  /** What was just done, such as that the text was copied. */
  readonly notice: string;
  readonly deeds: Deeds;
}

/** The whole page. */
export function App({ state, usesFileTime, notice, deeds }: AppProps) {
  const { phase, lines, total, sheets, general } = state;
  const hasAnswer = lines.length > 0;
  return (
    <>
      <header>
        <h1>coilbook: is this capture whole?</h1>
        <p class="private">Nothing leaves this device. Files are read on this page and nowhere else.</p>
      </header>
      <main>
        <p class="status" role="status" aria-live="polite">
          {sayStatus(state)}
        </p>
        {phase === 'failed' ? <Failure message={state.failure ?? ''} /> : null}
        {phase === 'sorting' || phase === 'checking' ? <Progress state={state} onStop={deeds.stop} /> : null}
        {phase === 'stopped' && !hasAnswer ? <p>Stopped before any capture was checked.</p> : null}
        {phase === 'done' && total === 0 ? <p aria-hidden="true">{sayStatus(state)}</p> : null}
        {hasAnswer ? <AnswerOf state={state} deeds={deeds} /> : null}
        {hasAnswer || general.length > 0 ? <Actions notice={notice} deeds={deeds} /> : null}
        <Chooser
          hasCaptures={hasAnswer || phase === 'checking'}
          usesFileTime={usesFileTime}
          onFiles={deeds.takeFiles}
          onFileTime={deeds.useFileTime}
          onClear={deeds.clear}
        />
        {hasAnswer ? <Grounds state={state} deeds={deeds} /> : null}
        {sheets.length === 0 ? null : <Sheets state={state} />}
      </main>
      <footer>
        <p>
          A capture is the text file that a vending machine gives out over its audit port (DEX/UCS, laid out by
          EVA-DTS). This page works offline: keep the file, and open it from this device.
        </p>
      </footer>
    </>
  );
}

type Parts = Pick<AppProps, 'state' | 'deeds'>;

/** The capture that is shown alone; null while the list of all is. */
function lineOf({ lines, shown, total }: PageState): CaptureLine | null {
  return total === 1 || shown !== null ? (lines[shown ?? 0] ?? null) : null;
}

function AnswerOf({ state, deeds }: Parts) {
  const { total, counts } = state;
  const line = lineOf(state);
  if (line === null) {
    return (
      <Answer
        verdict={worstOf(counts)}
        heading={headingOfMany(state)}
        todo={todoOfMany(counts)}
        cautions={cautionsOfMany(state)}
      />
    );
  }
  const about = `${printable(line.machine ?? 'Machine not known', 60)}, ${timeWords(line.clock)}, ${printable(line.file, 120)}`;
  return (
    <>
      {total === 1 ? null : (
        <p class="back">
          <button type="button" onClick={() => deeds.look(null)}>
            Back to all {total}
          </button>
        </p>
      )}
      <Answer
        verdict={line.verdict}
        heading={VERDICT_WORDS[line.verdict]}
        todo={todoOf(line.headline)}
        about={about}
        cautions={line.cautions}
      />
    </>
  );
}

/** What the answer rests on. */
function Grounds({ state, deeds }: Parts) {
  const { lines, counts, view, between } = state;
  const line = lineOf(state);
  if (line !== null) {
    return view?.id === line.id ? <CaptureDetails view={view} onRead={deeds.lookAtRead} /> : null;
  }
  return (
    <>
      <ResultsList
        lines={lines}
        counts={counts}
        choice={state.choice}
        wanted={state.page}
        onLook={deeds.look}
        onLeaf={deeds.leaf}
      />
      {between === null ? null : <Between between={between} headLevel="all" />}
    </>
  );
}

function headingOfMany({ counts, phase, total, lines }: PageState): string {
  const left = phase === 'stopped' ? ` Stopped: ${total - lines.length} of ${total} were not checked.` : '';
  return `${countWords(counts)}${left}`;
}

function todoOfMany(counts: PageState['counts']): string {
  if (counts['read-again'] > 0) return 'Read those machines again; what to do at each stands in the list, worst first.';
  if (counts.doubtful > 0) return 'Look at the doubtful ones before you rely on them; what to do stands in the list.';
  return 'Nothing to do.';
}

function cautionsOfMany({ lines }: PageState): readonly string[] {
  return [...new Set(lines.filter(({ verdict }) => verdict !== 'sound').flatMap(({ cautions }) => cautions))];
}

function Progress({ state: { phase, lines, total }, onStop }: { state: PageState; onStop: () => void }) {
  return (
    <section class="progress" aria-label="Progress">
      <progress aria-label="Captures checked" {...(phase === 'checking' ? { value: lines.length, max: total } : {})} />
      <span>{phase === 'sorting' ? 'Looking at the files' : `${lines.length} of ${total} checked`}</span>
      <button type="button" onClick={onStop}>
        Stop
      </button>
    </section>
  );
}

function Actions({ notice, deeds }: Pick<AppProps, 'notice' | 'deeds'>) {
  return (
    <section class="actions" aria-label="Use the result">
      <button type="button" onClick={deeds.share}>
        Share
      </button>
      <button type="button" onClick={deeds.print}>
        Print
      </button>
      <button type="button" onClick={deeds.saveJson}>
        Save as JSON
      </button>
      <span role="status">{notice}</span>
    </section>
  );
}

function Sheets({ state: { sheets, general } }: { state: PageState }) {
  return (
    <section aria-labelledby="sheets">
      <h3 id="sheets">Sheets</h3>
      <ul>
        {sheets.map(({ file, kind, rows }, i) => (
          <li key={i}>
            {printable(file, 120)}: {kind === null ? 'not used here' : `${kind}, ${rows} rows used`}
          </li>
        ))}
      </ul>
      {general.length === 0 ? null : <FindingsList findings={general} file={null} />}
    </section>
  );
}

function Failure({ message }: { message: string }) {
  return (
    <section class="failure" role="alert">
      <h2>The program failed</h2>
      <p>
        Trust nothing on this page, and check the captures in another way. This is a defect: {printable(message, 300)}
      </p>
    </section>
  );
}
