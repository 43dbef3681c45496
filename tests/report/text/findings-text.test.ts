import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../../src/findings/index.js';
import { layFindings } from '../../../src/report/text/findings-text.js';
import { PLAIN_STYLE, TERMINAL_STYLE } from '../../../src/report/text/style.js';
import { textWidth } from '../../../src/report/text/text-width.js';

const lay = (...args: Parameters<typeof layFindings> extends [infer F, unknown, (infer C)?] ? [F, C?] : never) =>
  layFindings(args[0], PLAIN_STYLE, args[1]);

describe('layFindings', () => {
  it('puts the worst first, each with what to do, its place and its code', () => {
    const lines = lay([
      makeFinding('padding', 'Filler bytes stand after the capture.', { file: 'a.dex', line: 9 }),
      makeFinding('cut-short', 'The capture ends too early.', {
        file: 'a.dex',
        line: 12,
        segment: 'PA2',
        advice: 'Read the machine again.',
      }),
    ]);
    expect(lines).toEqual([
      'fault  The capture ends too early.',
      '       Do: Read the machine again.',
      '       a.dex, line 12, PA2, cut-short',
      'note   Filler bytes stand after the capture.',
      '       a.dex, line 9, padding',
    ]);
  });

  it('leaves out what the report around it says already', () => {
    const finding = makeFinding('short', 'Short.', { file: 'a.dex', machine: 'M1', element: 'CA306', segment: 'CA3' });
    expect(lay([finding], { file: 'a.dex', machine: 'M1' })[1]).toBe('       CA306, short');
    expect(lay([finding], { indent: '    ' })).toEqual([
      '    doubt  Short.',
      '           machine M1, a.dex, CA306, short',
    ]);
  });

  it('says what was expected and found, and against which file', () => {
    const finding = makeFinding('segment-count', 'SE differs.', {
      expected: '9',
      received: '10',
      file: 'in/b.dex',
      related: [{ file: 'in/a.dex' }],
    });
    expect(lay([finding])[1]).toBe('       in/b.dex, expected 9, found 10, against a.dex, segment-count');
  });

  it('leaves expected and found of a sheet to the message, which says them', () => {
    const finding = makeFinding('bad-cell', 'counts.csv, row 3: bad.', {
      file: 'counts.csv',
      row: 3,
      field: 'coins',
      expected: 'an amount',
      received: 'x',
    });
    expect(lay([finding])[1]).toBe('       counts.csv, row 3, column coins, bad-cell');
  });

  it('shows a few of many alike and counts the rest', () => {
    const many = (count: number) => Array.from({ length: count }, (_, i) => makeFinding('bad-row', `Row ${i} is bad.`));
    expect(lay(many(7)).filter((line) => line.startsWith('doubt'))).toHaveLength(7);
    const lines = lay([...many(20), makeFinding('padding', 'Filler.')]);
    expect(lines.filter((line) => line.includes('is bad'))).toHaveLength(6);
    expect(lines).toContain('doubt  And 14 more of this kind (bad-row); --json lists them all.');
  });

  it('fits a terminal and can not steer it', () => {
    const text = `\u001b[31m${'evil '.repeat(60)}`;
    const finding = makeFinding('bad-row', text, { advice: text, file: text, received: text, row: 2 });
    for (const line of lay([finding])) {
      expect(textWidth(line)).toBeLessThanOrEqual(80);
      expect(line).not.toContain('\u001b');
    }
  });

  it('sets faults and doubts off by weight', () => {
    const [fault, place] = layFindings([makeFinding('cut-short', 'Too short.')], TERMINAL_STYLE);
    expect(fault).toBe('\u001b[1mfault  \u001b[22mToo short.');
    expect(place).toBe('\u001b[2m       cut-short\u001b[22m');
    expect(layFindings([makeFinding('padding', 'Filler.')], TERMINAL_STYLE)[0]).toBe('note   Filler.');
  });
});
