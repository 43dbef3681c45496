import { type ElementKind, findElement, findSegment, type Span } from '../dictionary/index.js';
import type { Segment } from '../segments/index.js';
import { elementWords, type ReadMoney } from './element-words.js';
import { UNCONFIRMED } from './unconfirmed-elements.js';

/** One element of a capture in words. */
export interface ExplainedElement {
  /** Segment and position, such as `CA302`. */
  readonly name: string;
  /** As it stands; empty when there is nothing between its marks. */
  readonly text: string;
  /** What it means; null when neither the dictionary nor the machine's profile knows it. */
  readonly meaning: string | null;
  /** Whether the meaning is the profile's. */
  readonly isByProfile: boolean;
  readonly kind: ElementKind | null;
  readonly span: Span | null;
  /** What it says, where the text does not say it itself. */
  readonly words: string | null;
  /** Whether nothing else in a capture, or in those before and after it, confirms it; see `UNCONFIRMED`. */
  readonly isUnconfirmed: boolean;
  readonly offset: number;
}

/** One segment of a capture in words. */
export interface ExplainedSegment {
  readonly id: string;
  /** What it is about; null when the dictionary does not know it. */
  readonly title: string | null;
  readonly line: number;
  readonly offset: number;
  /** The read it is in, from 0; null for what stands outside the sets. */
  readonly read: number | null;
  /** The machine's column it belongs to. */
  readonly column: string | null;
  readonly elements: readonly ExplainedElement[];
  /** What the rest of the capture says to it, such as whether an integrity value fits. */
  readonly remark: string | null;
}

/** Where a segment stands, and what is known around it. */
export interface SegmentSetting extends ReadMoney {
  readonly read: number | null;
  readonly column: string | null;
  readonly remark: string | null;
}

/** Put a segment in words, element by element; what is not known stays as it is. */
export function explainSegment(segment: Segment, setting: SegmentSetting): ExplainedSegment {
  return {
    id: segment.id,
    title: findSegment(segment.id)?.title ?? null,
    line: segment.line,
    offset: segment.offset,
    read: setting.read,
    column: setting.column,
    elements: segment.elements.map((text, at) => {
      const name = `${segment.id}${String(at + 1).padStart(2, '0')}`;
      return { ...explainElement(name, text, setting), offset: segment.elementOffsets[at]! };
    }),
    remark: setting.remark,
  };
}

function explainElement(name: string, text: string, setting: ReadMoney): Omit<ExplainedElement, 'offset'> {
  const known = findElement(name);
  const elements = setting.profile?.elements ?? {};
  const own = Object.hasOwn(elements, name) ? elements[name]! : null;
  return {
    name,
    text,
    meaning: own ?? known?.meaning ?? null,
    isByProfile: own !== null,
    kind: known?.kind ?? null,
    span: known?.span ?? null,
    words: known === null || text === '' ? null : elementWords(text, known, setting),
    isUnconfirmed: UNCONFIRMED.has(name),
  };
}
