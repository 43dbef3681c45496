import type { ExplainedElement, ExplainedSegment } from '../../explain/index.js';
import { csvText } from './csv.js';
import type { CsvTable } from './csv-table.js';

/** One row of {@link ELEMENTS_TABLE}: an element, or a segment without any. */
export interface ElementRow {
  readonly file: string;
  readonly segment: ExplainedSegment;
  readonly element: ExplainedElement | null;
}

/** The rows of a segment: one an element. */
export function elementRows(file: string, segment: ExplainedSegment): ElementRow[] {
  if (segment.elements.length === 0) return [{ file, segment, element: null }];
  return segment.elements.map((element) => ({ file, segment, element }));
}

/** One row an element of a capture, in words. */
export const ELEMENTS_TABLE: CsvTable<ElementRow> = {
  columns: [
    ['file', ({ file }) => csvText(file)],
    ['read', ({ segment }) => (segment.read === null ? null : segment.read + 1)],
    ['line', ({ segment }) => segment.line],
    ['segment', ({ segment }) => csvText(segment.id)],
    ['title', ({ segment }) => segment.title],
    ['column', ({ segment }) => csvText(segment.column)],
    ['element', ({ element }) => csvText(element?.name ?? null)],
    ['text', ({ element }) => csvText(element?.text ?? null)],
    ['words', ({ element }) => csvText(element?.words ?? null)],
    ['meaning', ({ element }) => csvText(element?.meaning ?? null)],
    ['offset', ({ element, segment }) => element?.offset ?? segment.offset],
  ],
};
