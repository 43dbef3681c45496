import { describe, expect, it } from 'vitest';
import { readCapturesList } from '../../src/sheets/index.js';
import { outline } from '../support/sheet-reading.js';

const read = (content: string) => readCapturesList({ file: 'list.csv', content });

describe('readCapturesList', () => {
  it('reads every column', () => {
    const { rows, findings } = read(
      'file,received at,reason,signal,machine,bag,filled\nday1/a.txt,2026-11-24 10:15,On-Demand,17,M1,B1,Y\nday1/b.txt,,,,,,\nc.txt,2026-11-24T11:00:05,service,31,,,no',
    );
    expect(rows).toEqual([
      {
        file: 'day1/a.txt',
        receivedAt: '2026-11-24T10:15:00',
        reason: 'on demand',
        signal: 17,
        machine: 'M1',
        bag: 'B1',
        filled: true,
        place: { file: 'list.csv', row: 2 },
      },
      {
        file: 'day1/b.txt',
        receivedAt: null,
        reason: null,
        signal: null,
        machine: null,
        bag: null,
        filled: null,
        place: { file: 'list.csv', row: 3 },
      },
      {
        file: 'c.txt',
        receivedAt: '2026-11-24T11:00:05',
        reason: 'service',
        signal: 31,
        machine: null,
        bag: null,
        filled: false,
        place: { file: 'list.csv', row: 4 },
      },
    ]);
    expect(findings).toEqual([]);
  });

  it('keeps a row with a bad cell, which then counts as not stated', () => {
    const { rows, findings } = read(
      'file,received_at,reason,signal\na,2026-11-24,asked,99\nb,2026-11-24 10:15Z,scheduled,0',
    );
    expect(rows).toMatchObject([
      { file: 'a', receivedAt: null, reason: null, signal: null },
      { file: 'b', receivedAt: null, reason: 'scheduled', signal: null },
    ]);
    expect(outline(findings)).toEqual([
      'bad-cell 2 received_at',
      'bad-cell 2 reason',
      'bad-cell 2 signal',
      'bad-cell 3 received_at',
      'bad-cell 3 signal',
    ]);
  });

  it('does not know whether columns were filled where the cell is no yes or no, or the list has no such column', () => {
    const { rows, findings } = read('file,filled\na,half\nb,yes');
    expect(rows.map(({ filled }) => filled)).toEqual([null, true]);
    expect(outline(findings)).toEqual(['bad-cell 2 filled']);
    expect(read('file,reason\na,service').rows[0]!.filled).toBeNull();
  });

  it('needs the file', () => {
    expect(outline(read('name,reason\na,service').findings)).toEqual(['sheet-column-missing 1']);
    expect(outline(read('file,reason\n,service').findings)).toEqual(['bad-cell 2 file']);
  });

  it('keeps the first of two rows for one file', () => {
    const { rows, findings } = read('file,signal\na,5\nb,6\na,7');
    expect(rows.map(({ signal }) => signal)).toEqual([5, 6]);
    expect(findings).toMatchObject([{ code: 'duplicate-row', row: 4, related: [{ row: 2 }] }]);
  });
});
