import { describe, expect, it } from 'vitest';
import { layDayReport, sayAnswer } from '../../src/cli/day-text.js';
import { PLAIN_STYLE } from '../../src/report/index.js';

const INTAKE = {
  ...{ files: 9, taken: 1, setAside: 2, already: 3, leftForNextTime: 1, unread: 2, reads: 1, duplicates: 1 },
  findings: [{ code: 'unreadable-file', severity: 'fault', message: 'a.dex could not be read: gone.' }],
} as const;
const DAY = { attention: [], machines: { expected: 1, read: 1, unknown: 0 } };
const REST = { folder: 'out', pages: null, adjusted: [], stale: [], head: { size: 1, root: 'ab' }, book: 'b.db' };

describe('the answer of a day', () => {
  it('says how much there is to look at, and what came in', () => {
    expect(sayAnswer(DAY, null)).toBe('Nothing to look at; 1 of 1 machine read.');
    expect(sayAnswer(DAY, INTAKE)).toBe('Nothing to look at; 1 of 1 machine read; 1 new file taken in.');
  });
});

describe('layDayReport', () => {
  it('says of every file what became of it, and of those not taken in why, where there is no list to say it', () => {
    const text = layDayReport({ ...REST, answer: 'A.', intake: INTAKE, day: null }, PLAIN_STYLE).join('\n');
    expect(text.replaceAll(/\n +/g, ' ')).toContain(
      'Looked at 9 files: 1 taken in with 1 read, 2 set aside, as there is no capture in them, 3 in the book already, ' +
        '1 left for the next run, as they were being written, 2 that could not be read; 1 read came before, and counts once.',
    );
    expect(text).toContain('a.dex could not be read: gone.');
    expect(text).toContain('Tables of the day: out');
    expect(text).toMatch(/Book: b\.db, 1 entry\. Write down elsewhere:\n {2}size 1\n {2}root ab$/);
  });

  it('says which closed rounds were adjusted, and where the pages are', () => {
    const adjusted = [{ entry: 14, settlement: 12, route: 'R\u001b7', day: '2026-11-23' }];
    const given = { ...REST, adjusted, pages: 'out', answer: 'A.', intake: null, day: null };
    const text = layDayReport(given, PLAIN_STYLE).join('\n').replaceAll(/\n +/g, ' ');
    expect(text).toContain('changes a closed round (route R\\x1B7, 2026-11-23, entry 12): an adjustment was recorded.');
    expect(text).toContain('Pages to look at and print: out/index.html');
    const none = layDayReport({ ...given, adjusted: [{ ...adjusted[0]!, route: null }] }, PLAIN_STYLE).join('\n');
    expect(none).toContain('(no route, 2026-11-23,');
  });

  it('leaves out what there is not', () => {
    const none = {
      ...INTAKE,
      taken: 0,
      setAside: 0,
      already: 0,
      leftForNextTime: 0,
      unread: 0,
      duplicates: 2,
      files: 0,
    };
    const text = layDayReport(
      { ...REST, folder: null, answer: 'A.', intake: { ...none, findings: [] }, day: null },
      PLAIN_STYLE,
    );
    expect(text[1]).toBe('  Looked at 0 files; 2 reads came before, and count once.');
    expect(layDayReport({ ...REST, answer: 'A.', intake: null, day: null }, PLAIN_STYLE)[1]).toBe('');
  });
});
