import type { ComponentChildren } from 'preact';

/** How deep a heading stands under the page's own, which is 1. */
export type HeadingLevel = 2 | 3 | 4;

/** What a heading says. */
export interface HeadingProps {
  readonly level: HeadingLevel;
  readonly id?: string | undefined;
  readonly children: ComponentChildren;
}

/** A heading of a part that can stand at several depths. */
export function Heading({ level, id, children }: HeadingProps) {
  const Tag = `h${level}` as const;
  return <Tag id={id}>{children}</Tag>;
}
