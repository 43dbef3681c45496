import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { READS_A_PART } from '../../../src/driver/desk/check-sent-file.js';
import { Desk } from '../../../src/driver/desk/desk.js';
import type { CaptureLine, CaptureView, Report, Request, SentFile } from '../../../src/driver/desk/messages.js';
import { startDeskInWorker, type WorkerScope } from '../../../src/driver/desk/start-desk.js';
import { CABINET_CAUTIONS, sayCautions } from '../../../src/findings/index.js';
import type { CheckJson } from '../../../src/report/index.js';
import { buildCapture, joinCaptures } from '../../support/build-capture.js';

const DEMO = fileURLToPath(new URL('../../../fixtures/demo', import.meta.url));
const captures = readdirSync(`${DEMO}/captures`).map((name) =>
  sentFile(name, readFileSync(`${DEMO}/captures/${name}`)),
);
const sheets = ['machines.csv', 'plan.csv', 'captures.csv', 'counts.csv'].map((name) =>
  sentFile(name, readFileSync(`${DEMO}/${name}`)),
);
const capture = (asset: string, vends: number, clock = '261124*1015'): Uint8Array =>
  buildCapture([
    `ID1*S${asset}*M1****${asset}`,
    'ID4*2*978*EUR',
    `ID5*${clock}`,
    'CB1*B1',
    `VA1*${vends * 100}*${vends}*100*1`,
    'PA1*11*100*Tea',
    `PA2*${vends}*${vends * 100}*1*100`,
    'PA5*261120*0930',
    'PA1*12*150',
  ]);

function sentFile(path: string, content: Uint8Array | string, lastModified = 0): SentFile {
  return {
    path,
    file: new File([typeof content === 'string' ? content : new Uint8Array(content)], path, { lastModified }),
  };
}

/** A desk of which all reports are kept. */
class Trial {
  readonly reports: Report[] = [];
  readonly desk: Desk;
  #clock = 0;

  constructor(pause: () => Promise<void> = () => Promise.resolve()) {
    this.desk = new Desk({ tell: (report) => this.reports.push(report), pause, now: () => (this.#clock += 50) });
  }

  ask(request: Request): Promise<void> {
    return this.desk.handle(request);
  }

  take(files: readonly SentFile[], keepsCaptures = false): Promise<void> {
    return this.ask({ ask: 'take', files, keepsCaptures });
  }

  last<Tell extends Report['tell']>(tell: Tell): Extract<Report, { tell: Tell }> {
    return this.reports.findLast((report): report is Extract<Report, { tell: Tell }> => report.tell === tell)!;
  }

  /** What is said of each capture since the last sorting. */
  get lines(): readonly CaptureLine[] {
    const from = this.reports.findLastIndex(({ tell }) => tell === 'sorted');
    return this.reports.slice(from).flatMap((report) => (report.tell === 'checked' ? report.lines : []));
  }

  async show(id: number, read = 0): Promise<CaptureView> {
    await this.ask({ ask: 'show', id, read });
    return this.last('view').view;
  }

  async json(): Promise<CheckJson[]> {
    await this.ask({ ask: 'json' });
    return this.last('json')
      .text.split('\n')
      .slice(0, -1)
      .map((line) => JSON.parse(line) as CheckJson);
  }
}

describe('Desk', () => {
  it('checks all captures of the demo with its sheets, and counts as the demo says', async () => {
    const trial = new Trial();
    await trial.take([...captures, ...sheets]);
    const count = (verdict: string) => trial.lines.filter((line) => line.verdict === verdict).length;
    expect([count('read-again'), count('doubtful'), count('sound')]).toEqual([2, 7, 40]);
    expect(trial.last('sorted').sheets.map(({ file, kind, rows }) => `${file} ${kind} ${rows}`)).toEqual([
      'captures.csv captures list 49',
      'machines.csv machines 8',
      'plan.csv plan 229',
      'counts.csv null 0',
    ]);
    // Reports come in batches, as they are made.
    expect(trial.reports.filter(({ tell }) => tell === 'checked').length).toBeGreaterThan(5);
    expect(trial.last('ended')).toMatchObject({ isStopped: false, between: null });
    expect((await trial.json()).map(({ file }) => file)).toEqual(trial.lines.map(({ file }) => file));
  });

  it('carries the cautions with everything but a sound capture', async () => {
    const trial = new Trial();
    await trial.take(captures);
    for (const { verdict, cautions } of trial.lines) {
      if (verdict === 'sound') expect(cautions).toEqual([]);
      else expect(cautions).toEqual(expect.arrayContaining(sayCautions(CABINET_CAUTIONS)));
    }
  });

  it('shows one capture with its columns, and what happened since the machine was read before', async () => {
    const trial = new Trial();
    await trial.take([
      sentFile('a.dex', capture('A1', 5)),
      sentFile('b.dex', capture('A1', 9, '261125*1015')),
      sentFile('c.dex', capture('A2', 3)),
      sentFile('plan.csv', 'machine,column,product,price\nV1,11,Green tea,1.20\n'),
      sentFile('machines.csv', 'machine,asset,currency\nV1,A1,EUR\n'),
    ]);
    const view = await trial.show(1);
    expect(view).toMatchObject({ id: 1, read: 0, readCount: 1, currency: 'EUR', decimals: 2 });
    expect(view.check).toMatchObject({ file: 'b.dex', verdict: 'doubtful' });
    expect(view.columns).toEqual([
      {
        column: '11',
        product: 'Green tea',
        price: 100,
        pricePlan: 120,
        sold: 9,
        value: 900,
        soldSinceReset: 1,
        valueSinceReset: 100,
        soldOutAt: '2026-11-20 09:30',
      },
      {
        column: '12',
        product: null,
        price: 150,
        pricePlan: null,
        sold: null,
        value: null,
        soldSinceReset: null,
        valueSinceReset: null,
        soldOutAt: null,
      },
    ]);
    expect(view.between?.intervals.map(({ from, to, totals }) => [from.file, to.file, totals.sold])).toEqual([
      ['a.dex', 'b.dex', 4],
    ]);
    expect(view.between?.cautions).toEqual(expect.arrayContaining(sayCautions(CABINET_CAUTIONS)));
    // Few captures are also compared all together.
    const { between } = trial.last('ended');
    expect(between?.intervals).toHaveLength(1);
  });

  it('tells a capture as soon as it is opened, and nothing late of one that is no longer looked at', async () => {
    const trial = new Trial();
    await trial.take(captures.slice(0, 12));
    const from = trial.reports.length;
    await Promise.all([trial.show(0), trial.show(8)]);
    const views = trial.reports.slice(from).flatMap((report) => (report.tell === 'view' ? [report.view] : []));
    expect(views.map(({ id, between }) => [id, between?.intervals.length])).toEqual([
      [8, undefined],
      [8, 1],
    ]);
  });

  it('is as bad as the worst part of a file with very many reads', async () => {
    const trial = new Trial();
    const good = buildCapture(['ID1*S1*M1', 'VA1*1*1']);
    const many = Buffer.concat([...Array<Uint8Array>(READS_A_PART).fill(good), capture('A1', 5).slice(0, 80)]);
    await trial.take([sentFile('many.dex', many)]);
    const { check, readCount } = await trial.show(0, READS_A_PART);
    expect([check.verdict, check.findings[0]?.severity, readCount]).toEqual(['read-again', 'fault', READS_A_PART + 1]);
    expect(check.headline).toBe(trial.lines[0]?.headline);
  });

  it('says of a capture that came twice that it counts once, and of a machine without a name that it has none', async () => {
    const trial = new Trial();
    const nameless = buildCapture(['ID1', 'VA1*1*1']);
    await trial.take([
      sentFile('a.dex', capture('A1', 5)),
      sentFile('b.dex', capture('A1', 5)),
      sentFile('n.dex', nameless),
    ]);
    const [a, b, n] = [await trial.show(0), await trial.show(1), await trial.show(2)];
    const codes = [a, b].flatMap(({ between }) => between!.findings.map(({ code, file }) => `${file} ${code}`));
    expect(codes).toEqual(['b.dex duplicate-read']);
    expect(n.between).toEqual({ intervals: [], findings: [], cautions: [] });
  });

  it('shows any read of a file with several, and nothing of one that has none', async () => {
    const trial = new Trial();
    await trial.take([
      sentFile('day.dex', joinCaptures(capture('A1', 5), capture('A2', 7))),
      sentFile('no.dex', 'no capture'),
    ]);
    expect((await trial.show(0, 1)).columns[0]?.sold).toBe(7);
    expect((await trial.show(0, 1)).readCount).toBe(2);
    expect(await trial.show(1)).toMatchObject({ readCount: 0, columns: [], currency: null, decimals: null });
    const before = trial.reports.length;
    await trial.ask({ ask: 'show', id: 99, read: 0 });
    expect(trial.reports).toHaveLength(before);
  });

  it('keeps captures when only sheets come, adds or replaces when captures do, and forgets all when asked', async () => {
    const trial = new Trial();
    const files = () => trial.lines.map(({ file }) => file);
    await trial.take([sentFile('b.dex', capture('A1', 5))]);
    await trial.take([sentFile('machines.csv', 'machine,asset\nV1,A1\n')]);
    expect([files(), trial.lines[0]?.machine]).toEqual([['b.dex'], 'V1']);
    await trial.take([sentFile('a.dex', capture('A1', 4))], true);
    expect(files()).toEqual(['a.dex', 'b.dex']);
    await trial.take([sentFile('c.dex', capture('A1', 6)), sentFile('new.csv', 'machine,asset\nV2,A1\n')]);
    expect([files(), trial.lines[0]?.machine]).toEqual([['c.dex'], 'V2']);
    expect(trial.last('sorted').sheets.map(({ file, kind }) => `${file} ${kind}`)).toEqual([
      'new.csv machines',
      'machines.csv null',
    ]);
    await trial.ask({ ask: 'clear' });
    expect(await trial.json()).toEqual([]);
    await trial.take([sentFile('d.dex', capture('A1', 7))], true);
    expect([files(), trial.lines[0]?.machine]).toEqual([['d.dex'], 'A1']);
  });

  it('tells sheet findings also where there is no capture, and in the JSON on the first line', async () => {
    const trial = new Trial();
    await trial.take([sentFile('machines.csv', 'machine,asset\nV1,A1\nV1,A1\n')]);
    expect(trial.last('general').findings.map(({ code }) => code)).toContain('duplicate-row');
    expect(trial.last('ended')).toMatchObject({ isStopped: false, between: { intervals: [] } });
    expect((await trial.json())[0]?.general).toHaveLength(1);
    await trial.take([sentFile('a.dex', capture('A1', 5)), sentFile('b.dex', capture('A1', 6))]);
    expect((await trial.json()).map(({ general }) => general?.length)).toEqual([1, undefined]);
  });

  it('takes the time of a file as when it was received only when told so', async () => {
    const trial = new Trial();
    const noon = new Date(2026, 10, 24, 12, 0, 0).getTime();
    await trial.take([sentFile('a.dex', capture('A1', 5), noon)]);
    expect(trial.lines[0]?.verdict).toBe('sound');
    await trial.ask({ ask: 'file-times', isReceived: true });
    expect(trial.lines[0]?.headline).toContain("set the machine's clock");
    expect((await trial.json())[0]?.reads[0]?.receivedAt).toBe('2026-11-24T12:00:00');
  });

  it('stops when asked: tells what it has checked, and of nothing after', async () => {
    let pauses = 0;
    const trial: Trial = new Trial(async () => {
      // One pause belongs to sorting the files.
      if (++pauses === 6) await trial.ask({ ask: 'stop' });
    });
    await trial.take(captures);
    const ended = trial.last('ended');
    expect(ended).toMatchObject({ isStopped: true, between: null });
    expect(trial.reports.at(-1)).toBe(ended);
    expect(trial.lines.map(({ file }) => file)).toEqual(captures.slice(0, 5).map(({ path }) => path));
    expect(await trial.json()).toHaveLength(5);
    expect((await trial.show(2)).check.file).toBe(captures[2]!.path);
  });

  it('leaves off for a new taking at any moment', async () => {
    for (const moment of [1, 2, 5]) {
      let pauses = 0;
      const other = sentFile('other.dex', capture('A1', 5));
      const trial: Trial = new Trial(async () => {
        if (++pauses === moment) await trial.take([other]);
      });
      await trial.take(captures);
      expect(trial.lines.map(({ file }) => file)).toEqual(['other.dex']);
      expect(trial.reports.filter(({ tell }) => tell === 'ended')).toHaveLength(1);
    }
  });

  it('says of a defect that it failed', async () => {
    const trial = new Trial(() => Promise.reject(new TypeError('a defect')));
    await trial.take(captures.slice(0, 1));
    expect(trial.last('failed').message).toBe('a defect');
    const other = new Trial(() => Promise.reject('text'));
    await other.take(captures.slice(0, 1));
    expect(other.last('failed').message).toBe('text');
  });
});

describe('startDeskInWorker', () => {
  it('says that it is ready, and answers messages', async () => {
    const reports: Report[] = [];
    const ended = new Promise<void>((done) => {
      const scope: WorkerScope = {
        onmessage: null,
        postMessage(report) {
          reports.push(report);
          if (report.tell === 'ended') done();
        },
      };
      startDeskInWorker(scope);
      scope.onmessage?.({ data: { ask: 'take', files: captures.slice(0, 3), keepsCaptures: false } });
    });
    await ended;
    expect(reports[0]).toEqual({ tell: 'ready' });
    expect(reports.map(({ tell }) => tell)).toContain('checked');
  });
});
