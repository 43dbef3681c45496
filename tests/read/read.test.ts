import { describe, expect, it } from 'vitest';
import { CaptureReader, locate, type Read, readCaptures } from '../../src/read/index.js';
import { buildCapture, bytesOf, textOf } from '../support/build-capture.js';
import { changeSegments, GOOD_SEGMENTS, readFirst } from '../support/check-cases.js';

const GOOD = buildCapture(GOOD_SEGMENTS);
const good = readFirst(GOOD);
const readOf = (...segments: string[]): Read => readFirst(buildCapture(segments));

describe('a read', () => {
  it('says which machine it is of', () => {
    expect(good.machine).toEqual({ asset: 'A1', serial: 'SN1', board: 'CB1', model: 'MODEL-A' });
    expect(good.machine).toBe(good.machine);
    expect(readOf('ID1**', 'VA1*1').machine).toEqual({ asset: null, serial: null, board: null, model: null });
    expect(readOf('VA1*1').machine).toEqual({ asset: null, serial: null, board: null, model: null });
  });

  it.each([
    // YYMMDD and HHMM (manual L0190D, p. 42); longer forms and ID503 from memory.
    ['ID5*261124*1015', '2026-11-24T10:15:00'],
    ['ID5*261124*1015*30', '2026-11-24T10:15:30'],
    ['ID5*261124*101507*30', '2026-11-24T10:15:07'],
    ['ID5*261124*1015*60', '2026-11-24T10:15:00'],
    ['ID5*261124*1015*-1', '2026-11-24T10:15:00'],
    ['ID5*20261124*101530', '2026-11-24T10:15:30'],
    ['ID5*261124', null],
    ['ID5**1015', null],
    ['ID5*261324*1015', null],
    ['ID5*261124*2515', null],
    ['ID5*000000*0000', null],
    ['VA1*1', null],
  ])('reads the clock of %s as %s', (segment, clock) => {
    expect(readOf('ID1*S', segment).clock).toBe(clock);
  });

  it.each([
    ['ID4*2*978*EUR', 'EUR', 2],
    ['ID4*2*978', 'EUR', 2],
    ['ID4*0*392*jpy', 'JPY', 0],
    // A country code in ID402 is no fault (Saeco Freestanding 400, p. 29); the alphabetic code decides.
    ['ID4*2*1*CHF', 'CHF', 2],
    ['ID4*2*1', null, 2],
    ['ID4*3*414*KWD', 'KWD', 3],
    ['ID4**978*EUR', 'EUR', null],
    ['ID4*9*978*EUR', 'EUR', null],
    ['ID4*-1*978*EUR', 'EUR', null],
    ['VA1*1', null, null],
  ])('reads the money of %s as %s with %s decimals', (segment, currency, decimals) => {
    const read = readOf('ID1*S', segment);
    expect([read.currency, read.decimals]).toEqual([currency, decimals]);
  });

  it('reads the event of the Lavazza Blue LB 2000 manual (section 15.2)', () => {
    // EA3: reading 22, taken 2002-08-01 16:45 by terminal 1, the one before 2002-07-23 11:37.
    const read = readOf('ID1*S', 'EA3*22*020801*1645*1*020723*1137', 'EA2*WaterAlarm*1*3');
    expect(read.integer('EA301')).toBe(22);
    expect(read.when('EA302', 'EA303')).toBe('2002-08-01T16:45:00');
    expect(read.text('EA304')).toBe('1');
    expect(read.when('EA305', 'EA306')).toBe('2002-07-23T11:37:00');
    // EA2: 1 since reset, 3 since initialisation.
    const [line] = read.lines('EA2');
    expect([read.block.text(line!, 1), read.block.number(line!, 2), read.block.number(line!, 3)]).toEqual([
      'WaterAlarm',
      1,
      3,
    ]);
  });

  it('gives no time where date or time is missing', () => {
    const read = readOf('ID1*S', 'EA4*261124', 'EA5**1015');
    expect([read.when('EA401', 'EA402'), read.when('EA501', 'EA502'), read.when('EA601', 'EA602')]).toEqual([
      null,
      null,
      null,
    ]);
  });

  it('keeps absent, empty and malformed apart from zero', () => {
    const read = readOf('ID1*S', 'CA3*0**x*-5');
    expect(['CA301', 'CA302', 'CA303', 'CA304', 'CA305', 'CA201'].map((name) => read.integer(name as 'CA301'))).toEqual(
      [0, null, null, -5, null, null],
    );
    expect(read.text('CA303')).toBe('x');
    expect(read.text('CA302')).toBeNull();
    expect(read.text('CA201')).toBeNull();
  });

  it('traces every figure to its byte', () => {
    const figure = good.figure('CA302')!;
    expect(figure).toEqual({
      read: 0,
      segment: 'CA3',
      line: 13,
      element: 'CA302',
      offset: textOf(GOOD).indexOf('CA3*500*') + 8,
      value: 300,
    });
    expect(good.figure('CA310')).toBeNull();
    expect(good.place('CA310')).toMatchObject({ element: 'CA310', line: 13, offset: textOf(GOOD).indexOf('CA3*500') });
    expect(good.place('DB201')).toEqual({ read: 0, segment: 'DB2', element: 'DB201' });
    expect(locate(good, good.line('VA1'))).toEqual({
      read: 0,
      segment: 'VA1',
      line: 10,
      offset: textOf(GOOD).indexOf('VA1*'),
    });
  });

  it('places an element that the dictionary does not know', () => {
    const read = readOf('ID1*S', 'ZZ1*1*2');
    expect(locate(read, read.index.unknown[0]!, 2)).toMatchObject({ segment: 'ZZ1', element: 'ZZ102' });
  });

  it('knows which segments it has', () => {
    const read = readOf('ID1*S', 'CA17*1*5*5', 'PA1*1', 'PA1*2', 'PA3*1');
    expect((['ID1', 'VA1', 'CA17', 'CA11', 'PA1', 'PA2', 'PA3', 'PA7'] as const).map((id) => read.has(id))).toEqual([
      true,
      false,
      true,
      false,
      true,
      false,
      true,
      false,
    ]);
    expect(readOf('ID1*S', 'PA1*1', 'PA7*1').has('PA7')).toBe(true);
    expect(good.lines('CA17')).toHaveLength(2);
  });

  it('counts segments as X12 does and says what SE states', () => {
    expect(good.segments).toEqual({ stated: 26, counted: 26 });
  });

  it.each([
    ['261124101500', '2026-11-24T10:15:00'],
    ['261124*1015', '2026-11-24T10:15:00'],
    ['TERMINAL', null],
  ])('knows the time that a reader appended: %s', (stAppend, expected) => {
    expect(readFirst(buildCapture(GOOD_SEGMENTS, { stAppend })).appendedAt).toBe(expected);
  });

  it('knows no appended time without one, or without ST', () => {
    expect(good.appendedAt).toBeNull();
    expect(readFirst(bytesOf('ID1*S\r\nSE*2*1\r\n')).appendedAt).toBeNull();
  });
});

describe('how far a read came', () => {
  const cut = (bytes: Uint8Array): [boolean, string | null] => {
    const read = readFirst(bytes);
    return [read.isComplete, read.lastWholeLine < 0 ? null : read.block.id(read.lastWholeLine)];
  };
  const bare = buildCapture(GOOD_SEGMENTS, { envelope: false });

  it.each([
    ['whole', bare, true, 'SE'],
    // Only the last CR LF missing: whole (domain rule).
    ['without the last line ending', bare.slice(0, -2), true, 'G85'],
    ['cut inside SE02', bare.slice(0, -3), false, 'G85'],
    ['cut before SE', bytesOf('ST*1*1\r\nID1*S\r\n'), false, 'ID1'],
    ['cut inside a line', bytesOf('ST*1*1\r\nID1*S'), false, 'ST'],
    ['cut inside the first', bytesOf('ST*1'), false, null],
    ['cut with a blank line after', bytesOf('ST*1*1\r\nID1*S\r\n\r\n'), false, 'ID1'],
    ['with another right behind it', bytesOf('ST*1*1\r\nID1*S\r\nPA1*1DXS*A*VA*V1/1*1\r\nST*1*2\r\n'), false, 'ID1'],
  ])('%s', (_, bytes, isComplete, last) => {
    expect(cut(bytes)).toEqual([isComplete, last]);
  });
});

describe('reads of one file', () => {
  it('are numbered, each with the transmission it came in', () => {
    const reads: Read[] = [];
    const reader = new CaptureReader();
    const keep = (read: Read): void => {
      reads.push(read);
    };
    reader.push(GOOD, keep);
    reader.push(buildCapture(changeSegments({}), { envelope: false }), keep);
    reader.end(keep);
    expect(reads.map(({ number, range }) => [number, range.transmission?.control ?? null, range.endedBy])).toEqual([
      [0, '1', 'SE'],
      [1, null, 'SE'],
    ]);
    expect(readCaptures(GOOD).reads[0]!.place('VA101').read).toBe(0);
  });
});
