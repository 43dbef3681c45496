import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { describe, expect, expectTypeOf, it } from 'vitest';
import {
  ELEMENT,
  type ElementName,
  findElement,
  findSegment,
  SEGMENT,
  SEGMENTS,
  type SegmentId,
} from '../../src/dictionary/index.js';

interface CsvRow {
  segment: string;
  element: string;
  segment_title: string;
  name: string;
  kind: string;
  span: string;
  source: string;
  group: string;
}

const CSV = new URL('../../fixtures/dictionary/element-dictionary.csv', import.meta.url);
const CSV_ROWS = parse<CsvRow>(readFileSync(CSV), { columns: true });

describe('the dictionary', () => {
  it('has exactly the elements of element-dictionary.csv, each with its name, kind, span, sources, title and place', () => {
    const typed = SEGMENTS.flatMap((segment) =>
      segment.elements.map((element) => ({
        segment: element.segment,
        element: element.name,
        segment_title: segment.title,
        name: element.meaning,
        kind: element.kind,
        span: element.span ?? '',
        source: element.sources.join('; '),
        group: segment.occurs === 'column' ? 'PA' : '',
      })),
    );
    const byElement = (a: CsvRow, b: CsvRow): number => (a.element < b.element ? -1 : 1);
    expect(CSV_ROWS.length).toBeGreaterThan(0);
    expect([...typed].sort(byElement)).toEqual([...CSV_ROWS].sort(byElement));
  });

  it('has each segment once and in the order of its elements', () => {
    expect(new Set(SEGMENTS.map((segment) => segment.id)).size).toBe(SEGMENTS.length);
    for (const segment of SEGMENTS) {
      const positions = segment.elements.map((element) => element.position);
      expect(positions).toEqual([...new Set(positions)].sort((a, b) => a - b));
    }
  });

  it('numbers segments by their place, and elements by theirs', () => {
    SEGMENTS.forEach((segment, index) => {
      expect(segment.index).toBe(index);
      for (const element of segment.elements) {
        expect(element.segmentIndex).toBe(index);
        expect(element.name).toBe(`${segment.id}${String(element.position).padStart(2, '0')}`);
      }
    });
  });

  it('tells CA302 (segment CA3, second element) from CA1002 (segment CA10, second element)', () => {
    expect(ELEMENT.CA302).toMatchObject({ segment: 'CA3', position: 2, kind: 'money', span: 'reset' });
    expect(ELEMENT.CA1002).toMatchObject({ segment: 'CA10', position: 2, kind: 'money', span: 'init' });
    expect(ELEMENT.IC106).toMatchObject({ segment: 'IC1', position: 6 });
  });

  it('knows what may repeat: product groups, loops, denominations, price lists, events, status', () => {
    const idsOf = (occurs: string): string[] => SEGMENTS.filter((entry) => entry.occurs === occurs).map((e) => e.id);
    expect(idsOf('column').sort()).toEqual(['PA1', 'PA2', 'PA3', 'PA4', 'PA5', 'PA7']);
    expect(idsOf('many').sort()).toEqual(
      ['CA11', 'CA12', 'CA13', 'CA14', 'CA17', 'EA1', 'EA2', 'LA1', 'LE', 'LS', 'MA5'].sort(),
    );
  });
});

describe('look-up by outside names', () => {
  it('finds what is there', () => {
    expect(findElement('PA202')).toBe(ELEMENT.PA202);
    expect(findSegment('PA2')).toBe(SEGMENT.PA2);
    expect(SEGMENTS[SEGMENT.PA2.index]).toBe(SEGMENT.PA2);
  });

  it.each(['', 'PA299', 'pa202', 'PA2', 'toString', '__proto__', 'constructor'])('element %j is none', (name) => {
    expect(findElement(name)).toBeNull();
  });

  it.each(['', 'PA9', 'pa2', 'PA202', 'toString', '__proto__', 'constructor'])('segment %j is none', (id) => {
    expect(findSegment(id)).toBeNull();
  });
});

describe('types', () => {
  it('names are unions of literals, so that a misspelt element does not compile', () => {
    expectTypeOf<'CA302'>().toExtend<ElementName>();
    expectTypeOf<'G8501'>().toExtend<ElementName>();
    expectTypeOf<'CA399'>().not.toExtend<ElementName>();
    expectTypeOf<string>().not.toExtend<ElementName>();
    expectTypeOf<'CA3'>().toExtend<SegmentId>();
    expectTypeOf<'CA302'>().not.toExtend<SegmentId>();
    expectTypeOf<string>().not.toExtend<SegmentId>();
    expectTypeOf(ELEMENT.CA302.name).toEqualTypeOf<ElementName>();
    // @ts-expect-error: there is no CA399
    expect(ELEMENT.CA399).toBeUndefined();
  });
});
