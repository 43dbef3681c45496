/** What the characters of an element stand for. `money` is in minor units of the capture's currency. */
export type ElementKind = 'text' | 'code' | 'count' | 'money' | 'money-or-count' | 'date' | 'time' | 'hex';

/** `init`: since initialisation (lifetime); `reset`: since the last reset (interval); `level`: as it stands now. */
export type Span = 'init' | 'reset' | 'level';

/** How often a segment comes in one set: once, any number of times, or as part of each column's group. */
export type Occurrence = 'once' | 'many' | 'column';

/** One element as a table writes it. */
export interface ElementEntry<Name extends string = string> {
  readonly name: Name;
  readonly meaning: string;
  readonly kind: ElementKind;
  readonly span: Span | null;
  /** The published documents that name the element, or `memory`. */
  readonly sources: readonly string[];
}

/** One segment as a table writes it. */
export interface SegmentEntry<Id extends string = string, Name extends string = string> {
  readonly id: Id;
  readonly title: string;
  readonly occurs: Occurrence;
  readonly elements: readonly ElementEntry<Name>[];
}

/** Write one element of a table. */
export function defineElement<const Name extends string>(
  name: Name,
  meaning: string,
  kind: ElementKind,
  span: Span | null,
  ...sources: readonly string[]
): ElementEntry<Name> {
  return { name, meaning, kind, span, sources };
}

/** Write one segment of a table. */
export function defineSegment<const Id extends string, const Name extends string>(
  id: Id,
  title: string,
  occurs: Occurrence,
  elements: readonly ElementEntry<Name>[],
): SegmentEntry<Id, Name> {
  return { id, title, occurs, elements };
}
