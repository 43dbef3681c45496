// Dictionary: the segments and elements of the standard, as typed data with the source of each.
// In: nothing. Out: definitions by identifier, by element name, by the bytes of an identifier.
// Must not know: captures, reads, findings.
export type { ElementEntry, ElementKind, Occurrence, SegmentEntry, Span } from './define.js';
export {
  ELEMENT,
  type ElementDef,
  type ElementName,
  findElement,
  findSegment,
  SEGMENT,
  SEGMENTS,
  type SegmentDef,
  type SegmentId,
} from './dictionary.js';
export { lookUpSegment, UNKNOWN_SEGMENT } from './segment-lookup.js';
export * as SOURCES from './sources.js';
