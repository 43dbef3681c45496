import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../src/findings/index.js';
import { contentKey, mergeDuplicates } from '../../src/interval/duplicates.js';
import type { TakenRead } from '../../src/interval/index.js';
import type { CaptureOptions } from '../support/build-capture.js';
import { machineRow } from '../support/check-cases.js';
import { type TakenOptions, takeSegments } from '../support/taken.js';

const SEGMENTS = ['ID1*S1*M****A1', 'ID5*261120*1000', 'VA1*100*1'];
const take = (file: string, options: TakenOptions = {}, capture: CaptureOptions = {}, segments = SEGMENTS): TakenRead =>
  takeSegments(segments, { file, ...options }, capture);
const names = (reads: readonly TakenRead[]): string[] =>
  mergeDuplicates(reads).map(({ kept, duplicates }) => [kept, ...duplicates].map(({ file }) => file).join(' < '));

describe('mergeDuplicates', () => {
  it('takes the same content for one read, whatever its line endings, padding, envelope or name', () => {
    const reads = [
      take('a'),
      take('b', {}, { eol: '\n' }),
      take('c', {}, { eol: '\r', envelope: false }),
      take('d', {}, { padding: new Uint8Array(7), header: 'reader 7' }),
      take('e', {}, { stAppend: '261120100500', crc: 'none' }),
    ];
    expect(names(reads)).toEqual(['a < b < c < d < e']);
  });

  it('takes other content for another read', () => {
    const other = take('b', {}, {}, ['ID1*S1*M****A1', 'ID5*261120*1001', 'VA1*100*1']);
    expect(names([take('a'), other])).toEqual(['a', 'b']);
  });

  it('tells reads apart that have the same lengths, clock and totals, and keeps the order in which they came', () => {
    const columns = (...segments: string[]): string[] => [...SEGMENTS, ...segments];
    const reads = [
      take('a', {}, {}, columns('PA1*11*100', 'PA2*12*1200')),
      take('b', {}, {}, columns('PA1*11*100', 'PA2*21*1200')),
      take('c', {}, { eol: '\n', crc: 'none' }, columns('PA1*11*100', 'PA2*12*1200')),
      take('d', {}, {}, columns('PA1*11*100', 'PA2*9*900')),
      take('e', {}, {}, ['ID5*261120*1000', 'ID1*S1*M****A1', 'VA1*100*1', 'PA1*11*100', 'PA2*12*1200']),
      take('f', { receivedAt: '2026-11-20T10:00:00' }, {}, columns('PA1*11*100', 'PA2*21*1200')),
    ];
    expect(names(reads)).toEqual(['a < c', 'f < b', 'd', 'e']);
  });

  it('groups as the whole content does, whatever lies about it', () => {
    const content = fc.array(fc.constantFrom('ID5*261120*1000', 'VA1*1*1', 'VA1*1*2', 'PA1*1*1', 'PA1*2*1', 'XX9*1'), {
      minLength: 1,
      maxLength: 4,
    });
    const capture = fc.record({ eol: fc.constantFrom('\n', '\r\n'), envelope: fc.boolean() });
    fc.assert(
      fc.property(fc.array(fc.tuple(content, capture), { maxLength: 12 }), (made) => {
        const reads = made.map(([segments, options], i) => take(String(i), {}, options, ['ID1*S1', ...segments]));
        const groups = new Map<string, string[]>();
        for (const { file, read } of reads) {
          const key = contentKey(read);
          groups.set(key, [...(groups.get(key) ?? []), file]);
        }
        expect(
          mergeDuplicates(reads).map(({ kept, duplicates }) => [kept, ...duplicates].map(({ file }) => file)),
        ).toEqual([...groups.values()]);
      }),
      { seed: 8 },
    );
  });

  it('keeps a copy that can be used before one that can not', () => {
    const faults = [makeFinding('integrity-damaged', 'x')];
    expect(names([take('a', { faults }), take('b')])).toEqual(['b < a']);
    expect(names([take('a'), take('b', { faults })])).toEqual(['a < b']);
  });

  it('keeps the copy that arrived first, one whose arrival is known before one that only lies there', () => {
    const at = (hour: number): TakenOptions => ({ receivedAt: `2026-11-20T${hour}:00:00` });
    expect(names([take('a', at(12)), take('b', at(11)), take('c', at(12)), take('d')])).toEqual(['b < a < c < d']);
  });

  it('keeps a copy of which the machine is known', () => {
    const known = { ...take('b'), machine: machineRow({ machine: 'M1' }) };
    expect(names([take('a'), known])).toEqual(['b < a']);
    expect(names([known, take('a')])).toEqual(['b < a']);
  });

  it('keeps machines apart that the office tells apart, whatever their reads hold', () => {
    const of = (file: string, machine: string): TakenRead => ({ ...take(file), machine: machineRow({ machine }) });
    expect(names([of('a', 'M1'), of('b', 'M2'), take('c'), of('d', 'M2')])).toEqual(['a < c', 'b < d']);
  });
});

describe('contentKey', () => {
  it('holds every segment but those of the envelope', () => {
    const taken = take('a', {}, {}, ['ID1*S1', 'XX9*1', '', 'VA1*1*1']);
    expect(contentKey(taken.read)).toBe('ID1*S1\nXX9*1\nVA1*1*1');
  });
});
