import { describe, expect, it } from 'vitest';
import { writeShareText } from '../../../src/driver/page/share-text.js';
import { EMPTY_STATE } from '../../../src/driver/page/state.js';
import {
  adviceWords,
  integrityWords,
  listTodoOf,
  machineWords,
  moneyWords,
  placeWords,
  segmentWords,
  todoOf,
} from '../../../src/driver/page/words.js';
import { CAUTIONS } from '../../../src/findings/index.js';
import { findingToJson } from '../../../src/report/index.js';
import { lineOf, viewOf } from './samples.js';

describe('words of the page', () => {
  it('say what to do without the verdict before it', () => {
    expect(todoOf('Read again: read the machine again.')).toBe('Read the machine again.');
    expect(todoOf('Sound: nothing to do.')).toBe('Nothing to do.');
    expect(todoOf('Doubtful: \u001b[2Jx')).toBe('\\x1B[2Jx');
    expect(listTodoOf('Doubtful: set the clock. Mind the cautions below.')).toBe('Set the clock.');
  });

  it('make an advice safe to show', () => {
    expect(adviceWords('Set the clock.\u001b[2J')).toBe('Set the clock.\\x1B[2J');
  });

  it('say where a finding stands', () => {
    const finding = findingToJson({
      code: 'price-off-plan',
      severity: 'doubt',
      message: 'x',
      file: 'a.dex',
      machine: 'V1',
      column: '11',
      line: 7,
      segment: 'PA1',
      element: 'PA102',
      expected: '150',
      received: '140',
    });
    expect(placeWords(finding, 'a.dex')).toBe(
      'machine V1, column 11, line 7, PA102, expected 150, found 140, price-off-plan',
    );
    expect(placeWords(finding, 'b.dex')).toMatch(/^a\.dex, machine V1/);
    const cell = findingToJson({
      code: 'bad-cell',
      severity: 'doubt',
      message: 'x',
      row: 3,
      field: 'price',
      received: 'y',
    });
    expect(placeWords(cell, null)).toBe('row 3, column price, bad-cell');
    const segment = findingToJson({ code: 'missing-segment', severity: 'doubt', message: 'x', segment: 'VA1' });
    expect(placeWords(segment, null)).toBe('VA1, missing-segment');
  });

  it('name a machine by the roster and by itself', () => {
    const nothing = { name: null, location: null, asset: null, serial: null, board: null, model: null };
    expect(machineWords(nothing)).toBe('it does not say');
    expect(machineWords({ ...nothing, asset: 'A1', serial: 'S1', model: 'X' })).toBe('asset A1, serial S1, model X');
    expect(machineWords({ ...nothing, name: 'V1', location: 'Hall' })).toBe('V1, Hall');
    expect(machineWords({ ...nothing, name: 'V1', asset: 'A1' })).toBe('V1 (asset A1)');
  });

  it('say how whole a read is', () => {
    const [read] = viewOf().check.reads;
    expect(segmentWords(read!)).toBe('7');
    expect(segmentWords({ ...read!, segments: { stated: 9, counted: 7 }, complete: false })).toBe(
      '7, 9 stated, cut short',
    );
    expect(segmentWords({ ...read!, segments: { stated: null, counted: 7 } })).toBe('7, none stated');
    expect(integrityWords({ state: 'exact', stated: 'AB', computed: 'AB' })).toBe('exact');
    expect(integrityWords({ state: 'absent', stated: null, computed: 'AB' })).toBe('no value to check against');
    expect(integrityWords({ state: 'damaged', stated: 'AB', computed: 'CD' })).toContain('(says AB, bytes give CD)');
    expect(integrityWords({ state: 'damaged', stated: 'AB', computed: null })).toContain('bytes give nothing');
  });

  it('say in which money amounts are, or that it is not known', () => {
    expect(moneyWords('EUR', 2)).toBe('EUR');
    expect(moneyWords(null, null)).toBe('currency not known, decimals not known: digits as the machine gives them');
  });
});

describe('writeShareText', () => {
  it('gives of one capture the answer, what it rests on, and the cautions', () => {
    const text = writeShareText({ ...EMPTY_STATE, total: 1, view: viewOf(), lines: [lineOf(0, 'read-again')] });
    const lines = text.split('\n');
    expect(lines[0]).toMatch(/^Read again: /);
    expect(lines.slice(1, 4)).toEqual([
      'Machine: asset A1, serial S1, model M1',
      'Clock: 2026-11-24 10:15',
      'File: 0.dex',
    ]);
    expect(text).toContain('Fault: The integrity value');
    expect(text).toContain(' Do: ');
    expect(text.split(CAUTIONS.tilt)).toHaveLength(2);
  });

  it('leaves out what is not known, and cuts a long list', () => {
    const view = viewOf();
    const [finding] = view.check.findings;
    const findings = Array.from({ length: 40 }, () => ({ ...finding!, advice: null }));
    const text = writeShareText({
      ...EMPTY_STATE,
      total: 9,
      shown: 0,
      view: { ...view, cautions: [], check: { ...view.check, reads: [], findings } },
    });
    expect(text).not.toMatch(/Machine:|Cautions:|Do:/);
    expect(text).toContain('And 10 more.');
  });

  it('gives of many the counts, then those to look at, worst first', () => {
    const lines = [lineOf(0, 'doubtful'), lineOf(1, 'sound'), lineOf(2, 'read-again', { machine: null })];
    const counts = { 'read-again': 1, doubtful: 1, sound: 1 };
    expect(
      writeShareText({ ...EMPTY_STATE, total: 3, lines, counts })
        .split('\n')
        .slice(0, 4),
    ).toEqual([
      '3 captures: 1 to read again, 1 doubtful, 1 sound.',
      '2.dex: Read again: do this.',
      'M0, 0.dex: Doubtful: do this.',
      'Cautions:',
    ]);
    const sound = writeShareText({ ...EMPTY_STATE, total: 2, lines: [lines[1]!], counts: { ...counts, doubtful: 0 } });
    expect(sound).not.toContain('Cautions');
  });
});
