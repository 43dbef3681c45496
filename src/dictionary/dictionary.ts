import { CASH_SEGMENTS } from './cash-segments.js';
import { CASHLESS_SEGMENTS } from './cashless-segments.js';
import type { ElementEntry, SegmentEntry } from './define.js';
import { ENVELOPE_SEGMENTS } from './envelope-segments.js';
import { EVENT_SEGMENTS } from './event-segments.js';
import { IDENTITY_SEGMENTS } from './identity-segments.js';
import { PRODUCT_SEGMENTS } from './product-segments.js';

const TABLES = [
  ...ENVELOPE_SEGMENTS,
  ...IDENTITY_SEGMENTS,
  ...CASH_SEGMENTS,
  ...CASHLESS_SEGMENTS,
  ...PRODUCT_SEGMENTS,
  ...EVENT_SEGMENTS,
];

/** Identifier of a segment the dictionary knows, such as `CA3`. */
export type SegmentId = (typeof TABLES)[number]['id'];
/** Name of an element the dictionary knows: segment and position, such as `CA302`. */
export type ElementName = (typeof TABLES)[number]['elements'][number]['name'];

/** An element of the dictionary, placed: which segment, which position (from 1). */
export interface ElementDef extends ElementEntry<ElementName> {
  readonly segment: SegmentId;
  /** Number of its segment in {@link SEGMENTS}. */
  readonly segmentIndex: number;
  readonly position: number;
}

/** A segment of the dictionary with its number, by which blocks and reads refer to it. */
export interface SegmentDef extends Omit<SegmentEntry<SegmentId>, 'elements'> {
  readonly index: number;
  readonly elements: readonly ElementDef[];
}

/** Every segment of the dictionary; a segment's index is its place here. */
export const SEGMENTS: readonly SegmentDef[] = TABLES.map((entry, segmentIndex) => ({
  ...entry,
  index: segmentIndex,
  elements: entry.elements.map((element) => ({
    ...element,
    segment: entry.id,
    segmentIndex,
    position: Number(element.name.slice(entry.id.length)),
  })),
}));

/** Every segment of the dictionary by its identifier. */
export const SEGMENT: Readonly<Record<SegmentId, SegmentDef>> = Object.fromEntries(
  SEGMENTS.map((segment) => [segment.id, segment]),
) as Record<SegmentId, SegmentDef>;

/** Every element of the dictionary by its name. */
export const ELEMENT: Readonly<Record<ElementName, ElementDef>> = Object.fromEntries(
  SEGMENTS.flatMap((segment) => segment.elements.map((element) => [element.name, element])),
) as Record<ElementName, ElementDef>;

/** The element of that name, or null when the dictionary has none. For names that come from outside. */
export function findElement(name: string): ElementDef | null {
  return Object.hasOwn(ELEMENT, name) ? ELEMENT[name as ElementName] : null;
}

/** The segment of that identifier, or null when the dictionary has none. For identifiers that come from outside. */
export function findSegment(id: string): SegmentDef | null {
  return Object.hasOwn(SEGMENT, id) ? SEGMENT[id as SegmentId] : null;
}
