import type { Verdict } from '../../checks/index.js';
import type { FindingJson } from '../../report/index.js';
import type { BetweenView, CaptureLine, CaptureView, Report, SheetLine } from '../desk/messages.js';

/** Everything the page shows depends on. */
export interface PageState {
  readonly phase: 'empty' | 'sorting' | 'checking' | 'done' | 'stopped' | 'failed';
  /** The taking that is shown; null until the desk names it. */
  readonly run: number | null;
  readonly total: number;
  readonly lines: readonly CaptureLine[];
  readonly counts: Readonly<Record<Verdict, number>>;
  readonly sheets: readonly SheetLine[];
  readonly general: readonly FindingJson[];
  readonly between: BetweenView | null;
  readonly view: CaptureView | null;
  /** The capture that is looked at; null for the list of all. */
  readonly shown: number | null;
  /** Which captures the list shows, and which page of them. */
  readonly choice: Verdict | 'all';
  readonly page: number;
  readonly failure: string | null;
}

export const EMPTY_STATE: PageState = {
  phase: 'empty',
  run: null,
  total: 0,
  lines: [],
  counts: { 'read-again': 0, doubtful: 0, sound: 0 },
  sheets: [],
  general: [],
  between: null,
  view: null,
  shown: null,
  choice: 'all',
  page: 0,
  failure: null,
};

/** What changes the state: a report of the desk, or what the person does. */
export type PageEvent = Report | Deed;

type Deed =
  | { readonly did: 'take' | 'clear' }
  | { readonly did: 'look'; readonly id: number | null }
  | { readonly did: 'leaf'; readonly choice: Verdict | 'all'; readonly page: number };

/** The state after an event. */
export function changeState(state: PageState, event: PageEvent): PageState {
  return 'did' in event ? afterDeed(state, event) : afterReport(state, event);
}

function afterDeed(state: PageState, event: Deed): PageState {
  switch (event.did) {
    case 'take':
      return { ...state, phase: 'sorting', run: null, view: null, shown: null, failure: null };
    case 'clear':
      return EMPTY_STATE;
    case 'look':
      return { ...state, shown: event.id, view: event.id === null ? null : state.view };
    case 'leaf':
      return { ...state, choice: event.choice, page: event.page };
  }
}

function afterReport(state: PageState, report: Report): PageState {
  switch (report.tell) {
    case 'sorted':
      return {
        ...EMPTY_STATE,
        phase: 'checking',
        run: report.run,
        total: report.total,
        sheets: report.sheets,
      };
    case 'failed':
      return { ...state, phase: 'failed', failure: report.message };
    case 'ended':
      return endWith(state, report);
    case 'general':
      return report.run === state.run ? { ...state, general: report.findings } : state;
    case 'checked':
      return report.run === state.run ? addLines(state, report.lines) : state;
    case 'view':
      return report.run === state.run || state.phase === 'stopped' ? { ...state, view: report.view } : state;
    default:
      return state;
  }
}

function addLines(state: PageState, added: readonly CaptureLine[]): PageState {
  const counts = { ...state.counts };
  for (const { verdict } of added) counts[verdict]++;
  return { ...state, lines: [...state.lines, ...added], counts };
}

function endWith(state: PageState, report: Extract<Report, { tell: 'ended' }>): PageState {
  if (report.isStopped) {
    const isNothing = state.phase === 'sorting';
    return isNothing ? EMPTY_STATE : { ...state, phase: 'stopped', run: report.run };
  }
  if (report.run !== state.run) return state;
  return { ...state, phase: 'done', between: report.between };
}
