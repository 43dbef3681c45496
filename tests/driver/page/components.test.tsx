import type { VNode } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { takeReads } from '../../../src/captures/index.js';
import { describeBetween } from '../../../src/driver/desk/describe-between.js';
import type { ColumnLine } from '../../../src/driver/desk/describe-columns.js';
import { Answer, worstOf } from '../../../src/driver/page/answer.js';
import { App, type Deeds } from '../../../src/driver/page/app.js';
import { Between } from '../../../src/driver/page/between.js';
import { CaptureDetails } from '../../../src/driver/page/capture-details.js';
import { Chooser } from '../../../src/driver/page/chooser.js';
import { ColumnsTable } from '../../../src/driver/page/columns-table.js';
import { FindingsList } from '../../../src/driver/page/findings-list.js';
import { ResultsList } from '../../../src/driver/page/results-list.js';
import { ScrollTable } from '../../../src/driver/page/scroll-table.js';
import { EMPTY_STATE, type PageState } from '../../../src/driver/page/state.js';
import { CABINET_CAUTIONS, sayCautions } from '../../../src/findings/index.js';
import { readCaptures } from '../../../src/read/index.js';
import { Roster } from '../../../src/sheets/index.js';
import { buildCapture } from '../../support/build-capture.js';
import { lineOf, viewOf } from './samples.js';

const HOSTILE = '<img src=x onerror=alert(1)>\u001b[31m';
/** What stands in the page for that: characters of HTML escaped, and controls shown. */
const SHOWN = '&lt;img src=x onerror=alert(1)>\\x1B[31m';

/** The text of a component, as a person reads it, and its elements. */
function show(component: VNode): { html: string; text: string } {
  const html = renderToString(component);
  return {
    html,
    text: html
      .replace(/<[^>]*>/g, ' ')
      .replace(/\s+/g, ' ')
      .trim(),
  };
}

const COLUMN: ColumnLine = {
  column: '11',
  product: 'Tea',
  price: 150,
  pricePlan: 160,
  sold: 12,
  value: 1800,
  soldSinceReset: null,
  valueSinceReset: null,
  soldOutAt: null,
};

const nothing = (): void => undefined;
const DEEDS: Deeds = {
  takeFiles: nothing,
  useFileTime: nothing,
  stop: nothing,
  clear: nothing,
  look: nothing,
  leaf: nothing,
  lookAtRead: nothing,
  share: nothing,
  saveJson: nothing,
  print: nothing,
};
const app = (changes: Partial<PageState>) =>
  show(<App state={{ ...EMPTY_STATE, ...changes }} usesFileTime={false} notice="" deeds={DEEDS} />);

/** What happened between two reads of a machine, the later one with the counters and segments given. */
function betweenOf(later: readonly string[], earlier: readonly string[] = ['VA1*500*5', 'PA1*11*100', 'PA2*5*500']) {
  const read = (clock: string, segments: readonly string[]) =>
    takeReads(
      `${clock}.dex`,
      readCaptures(buildCapture(['ID1*S1*M1****A1', 'ID4*2*978*EUR', `ID5*${clock}*1015`, ...segments])).reads,
      { roster: new Roster() },
    );
  return describeBetween([...read('261124', earlier), ...read('261125', later)], new Roster());
}

describe('Answer', () => {
  it('says verdict, what to do and cautions, with a sign of its own for each verdict', () => {
    const signs = (['sound', 'doubtful', 'read-again'] as const).map((verdict) => {
      const { html, text } = show(
        <Answer
          verdict={verdict}
          heading="H"
          todo="Do this."
          about={verdict}
          cautions={sayCautions(CABINET_CAUTIONS)}
        />,
      );
      expect(text).toMatch(new RegExp(`^H Do this. ${verdict} Cautions Switch off`));
      return /<path d="([^"]+)"/.exec(html)?.[1];
    });
    expect(new Set(signs).size).toBe(3);
    expect(show(<Answer verdict="sound" heading="H" todo="T" cautions={[]} />).text).toBe('H T');
  });

  it('is as bad as the worst of many', () => {
    expect(worstOf({ 'read-again': 1, doubtful: 1, sound: 1 })).toBe('read-again');
    expect(worstOf({ 'read-again': 0, doubtful: 1, sound: 1 })).toBe('doubtful');
    expect(worstOf({ 'read-again': 0, doubtful: 0, sound: 0 })).toBe('sound');
  });
});

describe('FindingsList', () => {
  it('shows hostile text as text, and counts what is too much to show', () => {
    const [finding] = viewOf().check.findings;
    const findings = Array.from({ length: 70 }, () => ({ ...finding!, message: HOSTILE, advice: HOSTILE }));
    const { html, text } = show(<FindingsList findings={findings} file="0.dex" />);
    expect(html.split(SHOWN)).toHaveLength(2 * 60 + 1);
    expect(html).not.toContain('<img');
    expect(text).toMatch(/^Fault .* And 10 more; “Save as JSON” lists them all\.$/);
    const { text: plain } = show(<FindingsList findings={[{ ...finding!, advice: null }]} file="0.dex" />);
    expect(plain).not.toMatch(/Do:|more/);
  });
});

describe('tables', () => {
  it('say what is not said as a dash, and mark a price off plan in words', () => {
    const { text } = show(<ColumnsTable view={viewOf({ columns: [COLUMN] })} />);
    expect(text).toContain('11 Tea 1.50 1.60 off plan 12 18.00 - -');
    const bare = { ...COLUMN, product: null, price: null, pricePlan: null, soldOutAt: '2026-11-20 09:30' };
    expect(show(<ColumnsTable view={viewOf({ columns: [bare] })} />).text).toContain(
      '11 - - 12 18.00 - - 2026-11-20 09:30',
    );
    expect(show(<ColumnsTable view={viewOf()} />).text).toBe('The read has no columns.');
  });

  it('cut long cells and show hostile ones as text', () => {
    const { html } = show(
      <ScrollTable caption="c" heads={[{ head: 'a' }]} rows={[[HOSTILE], ['y'.repeat(9999)], []]} />,
    );
    expect(html).toContain(SHOWN);
    expect(html.length).toBeLessThan(900);
  });
});

describe('Between', () => {
  it('shows what was sold, what cash did and what was found', () => {
    const { text } = show(
      <Between between={betweenOf(['VA1*900*9', 'PA1*11*100', 'PA2*9*900', 'PA1*12*50', 'PA2*0*0'])} headLevel="all" />,
    );
    expect(text).toMatch(/^Between the reads asset A1, serial S1, model M1: .*4 sold for 4\.00 EUR/);
    expect(text).toContain('from lifetime counters');
    expect(text).toContain('Tube difference -');
    expect(text).toContain('Total ');
  });

  it('says at least where counters started again, and that sales are not known where they are not', () => {
    const floor = betweenOf(
      ['CB1*B2', 'VA1*200*2', 'PA1*11*100', 'PA2*2*200'],
      ['CB1*B1', 'VA1*500*5', 'PA1*11*100', 'PA2*5*500'],
    );
    expect(show(<Between between={floor} headLevel="one" />).text).toContain('at least 2 sold for 2.00 EUR');
    const [interval] = floor.intervals;
    const unknown = { ...interval!, totals: { ...interval!.totals, sold: null } };
    expect(show(<Between between={{ ...floor, intervals: [unknown] }} headLevel="one" />).text).toContain(
      'sales not known',
    );
    const noValue = { ...interval!, findings: [], columns: [], totals: { ...interval!.totals, value: null } };
    expect(show(<Between between={{ ...floor, intervals: [noValue] }} headLevel="one" />).text).toContain(
      'a value not known',
    );
    const received = {
      ...noValue,
      from: { ...noValue.from, time: '2026-01-02T03:04:00' },
      to: { ...noValue.to, receivedAt: '2026-01-03T03:04:00' },
    };
    expect(show(<Between between={{ ...floor, intervals: [received] }} headLevel="one" />).text).toContain(
      'From 2026-01-02 03:04',
    );
    const many = { ...floor, intervals: Array.from({ length: 25 }, () => noValue) };
    expect(show(<Between between={many} headLevel="all" />).text).toContain('And 5 more.');
  });

  it('counts columns that sold nothing, and shows findings alone where there is no interval', () => {
    const idle = ['VA1*500*5', 'PA1*11*100', 'PA2*5*500', 'PA3*0', 'PA4*0'];
    expect(show(<Between between={betweenOf([...idle, 'MA5*X'], idle)} headLevel="all" />).text).toContain(
      '1 more sold nothing',
    );
    expect(show(<Between between={{ intervals: [], findings: [], cautions: [] }} headLevel="all" />).html).toBe('');
    const [finding] = viewOf().check.findings;
    expect(
      show(<Between between={{ intervals: [], findings: [finding!], cautions: [] }} headLevel="all" />).text,
    ).toContain('Fault');
  });
});

describe('CaptureDetails', () => {
  it('warns of figures of a capture that is to be read again, and of no others', () => {
    expect(show(<CaptureDetails view={viewOf()} onRead={nothing} />).text).toContain('any figure below may be wrong');
    const { check } = viewOf();
    const sound = viewOf({ check: { ...check, verdict: 'sound', findings: [] } });
    const { text } = show(<CaptureDetails view={sound} onRead={nothing} />);
    expect(text).toMatch(/^Findings Nothing was found\. The read Machine asset A1/);
    expect(text).not.toContain('may be wrong');
    const early = viewOf({ between: null });
    expect(show(<CaptureDetails view={early} onRead={nothing} />).text).toContain('Looking for other reads');
  });

  it('lets one of several reads be chosen, and shows none where there is none', () => {
    const { check } = viewOf();
    const [read] = check.reads;
    const bare = { ...read!, machine: { ...read!.machine, asset: null }, receivedAt: '2026-11-24T10:16:00' };
    const none = { ...read!, machine: { ...read!.machine, asset: null, serial: null } };
    const several = viewOf({ readCount: 3, read: 1, check: { ...check, reads: [read!, bare, none] } });
    const { text } = show(<CaptureDetails view={several} onRead={nothing} />);
    expect(text).toContain('The file holds 3 reads. Shown below: 1: A1 2026-11-24 10:15 2: S1');
    expect(text).toContain('Read 2 of 3');
    expect(text).toContain('Received 2026-11-24 10:16');
    const empty = viewOf({ readCount: 0, check: { ...check, reads: [] } });
    expect(show(<CaptureDetails view={empty} onRead={nothing} />).text).not.toContain('Columns');
  });
});

describe('ResultsList and Chooser', () => {
  it('show a page of captures with what to do, and leafing only where there is more than one', () => {
    const lines = Array.from({ length: 60 }, (_, i) => lineOf(i, 'doubtful', { machine: i === 0 ? null : HOSTILE }));
    const list = (choice: 'all' | 'sound', wanted = 0) =>
      show(
        <ResultsList
          lines={lines}
          counts={{ 'read-again': 0, doubtful: 60, sound: 0 }}
          choice={choice}
          wanted={wanted}
          onLook={nothing}
          onLeaf={nothing}
        />,
      );
    expect(list('all').text).toContain('All (60) Read again (0) Doubtful (60) Sound (0)');
    expect(list('all').text).toContain('Doubtful: machine not known Do this. 0.dex, 2026-11-24 10:15');
    expect(list('all').text).toContain('1 to 50 of 60');
    expect(list('all').html).toContain(SHOWN);
    expect(list('all', 1).text).toContain('51 to 60 of 60');
    expect(list('sound').text).toContain('None.');
  });

  it('ask for captures first, and for more later', () => {
    const chooser = (hasCaptures: boolean) =>
      show(
        <Chooser
          hasCaptures={hasCaptures}
          usesFileTime={false}
          onFiles={nothing}
          onFileTime={nothing}
          onClear={nothing}
        />,
      ).text;
    expect(chooser(false)).toMatch(/^Choose captures Or drop files and folders here/);
    expect(chooser(true)).toMatch(/^Check another Add captures or sheets Start again/);
  });
});

describe('App', () => {
  const lines = [lineOf(0, 'sound'), lineOf(1, 'read-again'), lineOf(2, 'doubtful', { machine: null })];
  const counts = { 'read-again': 1, doubtful: 1, sound: 1 };

  it('says before anything else that nothing leaves the device', () => {
    expect(app({}).text).toMatch(/^coilbook: is this capture whole\? Nothing leaves this device/);
    expect(app({}).text).not.toMatch(/Share|Stop|Captures/);
  });

  it('shows progress, and lets it be stopped', () => {
    const { html, text } = app({ phase: 'checking', total: 30, lines, counts });
    expect(html).toMatch(/<progress [^>]*value="3"[^>]*max="30"/);
    expect(text).toContain('3 of 30 checked Stop');
    expect(app({ phase: 'sorting' }).text).toContain('Looking at the files Stop');
  });

  it('gives of many the counts and what to do, with the cautions each once', () => {
    const { text } = app({ phase: 'done', total: 3, lines, counts });
    expect(text).toContain('3 captures: 1 to read again, 1 doubtful, 1 sound. Read those machines again');
    expect(text.split('Never rock or tilt')).toHaveLength(2);
    const doubtful = app({
      phase: 'done',
      total: 2,
      lines: [lines[2]!, lines[0]!],
      counts: { ...counts, 'read-again': 0 },
    });
    expect(doubtful.text).toContain('Look at the doubtful ones');
    const sound = app({
      phase: 'done',
      total: 2,
      lines: [lines[0]!],
      counts: { ...counts, 'read-again': 0, doubtful: 0 },
    });
    expect(sound.text).toContain('Nothing to do.');
    expect(sound.text).not.toContain('Cautions');
  });

  it('says after a stop how many were not checked', () => {
    expect(app({ phase: 'stopped', total: 30, lines, counts }).text).toContain('Stopped: 27 of 30 were not checked.');
    expect(app({ phase: 'stopped', total: 1 }).text).toContain('Stopped before any capture was checked.');
  });

  it('shows one of many with the way back, and one alone without', () => {
    const view = viewOf({ id: 2 });
    const one = app({ phase: 'done', total: 3, lines, counts, shown: 2, view });
    expect(one.text).toContain('Back to all 3 Doubtful Do this. Machine not known, 2026-11-24 10:15, 2.dex');
    expect(one.text).toContain('Findings');
    const waiting = app({ phase: 'done', total: 3, lines, counts, shown: 0, view });
    expect(waiting.text).not.toContain('Findings');
    expect(app({ phase: 'done', total: 3, lines, counts, shown: 9, view: null }).text).toContain('3 captures');
    const alone = app({ phase: 'done', total: 1, lines: [lines[0]!], counts, view: null });
    expect(alone.text).toContain('Sound Do this. M0');
    expect(alone.text).not.toContain('Back');
  });

  it('shows sheets and what is wrong with them, and what happened between few captures', () => {
    const [finding] = viewOf().check.findings;
    const { text, html } = app({
      phase: 'done',
      total: 3,
      lines,
      counts,
      sheets: [
        { file: HOSTILE, kind: 'machines', rows: 7 },
        { file: 'counts.csv', kind: null, rows: 0 },
      ],
      general: [finding!],
      between: betweenOf(['VA1*900*9', 'PA1*11*100', 'PA2*9*900']),
    });
    expect(html).toContain(`${SHOWN}: machines, 7 rows used`);
    expect(text).toContain('counts.csv: not used here');
    expect(text).toContain('4 sold for 4.00 EUR');
    expect(app({ phase: 'done', sheets: [], general: [finding!] }).text).toContain('Save as JSON');
  });

  it('says a failure so that nobody trusts the page', () => {
    const { text, html } = app({ phase: 'failed', failure: HOSTILE });
    expect(text).toContain('Trust nothing on this page');
    expect(html).toContain(SHOWN);
    expect(app({ phase: 'failed', failure: null }).text).toContain('This is a defect');
  });
});
