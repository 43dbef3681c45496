import { expect } from 'vitest';

/** A tag of a rendered page. */
export interface Tag {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly isClosing: boolean;
  /** Whether nothing is to follow that closes it. */
  readonly isEmpty: boolean;
}

const TAG = /<(\/?)([a-zA-Z][\w-]*)((?:\s+[\w:-]+(?:="[^"]*")?)*)\s*(\/?)>/g;
const ATTRIBUTE = /([\w:-]+)(?:="([^"]*)")?/g;

/** The page without what stands between style tags, which is ours alone. */
export function withoutStyle(html: string): string {
  return html.replace(/<style>[^<]*<\/style>/, '');
}

/** All tags of a page, in order: what the renderer writes is regular enough to be read so. */
export function tagsOf(html: string): Tag[] {
  return [...withoutStyle(html).matchAll(TAG)].map(([, slash, name, rest, end]) => ({
    name: name!,
    isClosing: slash === '/',
    isEmpty: end === '/',
    attributes: new Map([...rest!.matchAll(ATTRIBUTE)].map(([, key, value]) => [key!, value ?? ''])),
  }));
}

/** What a reader sees, spaces made single; what entities stand for is put back. */
export function textOf(html: string): string {
  return withoutStyle(html)
    .replace(/^.*?<\/head>/s, ' ')
    .replace(TAG, (_, __, name: string) => (/^(bdi|a|span|strong|code|time)$/.test(name) ? '' : ' '))
    .replaceAll('&lt;', '<')
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&')
    .replace(/\s+/g, ' ')
    .trim();
}

const idsOf = (html: string): string[] =>
  tagsOf(html).flatMap(({ attributes }) => (attributes.has('id') ? [attributes.get('id')!] : []));

/** Where links of a page lead. */
export const linksOf = (html: string): string[] =>
  tagsOf(html).flatMap(({ name, isClosing, attributes }) =>
    name === 'a' && !isClosing ? [attributes.get('href')!] : [],
  );

/** Every tag is closed, in order: no text has opened or closed one. */
function expectBalanced(html: string): void {
  const open: string[] = [];
  for (const { name, isClosing, isEmpty } of tagsOf(html)) {
    if (isClosing) expect(open.pop()).toBe(name);
    else if (!isEmpty) open.push(name);
  }
  expect(open).toEqual([]);
}

/**
 * What holds for every page, after the rules of HTML and WCAG 2.2 (1.3.1, 2.4.1, 2.4.2, 3.1.1): one heading 1 and no
 * level left out, tables with a caption and heads with a scope, ids once each, links inside the page that lead somewhere,
 * a language, a title, a policy, nothing to be fetched and nothing to run; and no more bytes than a page may have.
 */
export function expectSoundPage(html: string): void {
  const tags = tagsOf(html);
  const opened = tags.filter(({ isClosing }) => !isClosing);
  const named = (name: string): Tag[] => opened.filter((tag) => tag.name === name);
  expect(html.startsWith('<!doctype html>\n<html lang="en">')).toBe(true);
  expect(html).toMatch(/<title>[^<]+<\/title>/);
  expect(html).toContain("default-src 'none'");
  expectBalanced(html);
  const levels = opened.flatMap(({ name }) => (/^h[1-6]$/.test(name) ? [Number(name[1])] : []));
  expect(levels.filter((level) => level === 1)).toEqual([1]);
  for (const [place, level] of levels.entries()) expect(level - (levels[place - 1] ?? 0)).toBeLessThanOrEqual(1);
  expect(named('caption')).toHaveLength(named('table').length);
  for (const { attributes } of named('th')) expect(attributes.get('scope')).toMatch(/^(col|row)$/);
  const ids = idsOf(html);
  expect(new Set(ids).size).toBe(ids.length);
  for (const link of linksOf(html)) {
    expect(link).toMatch(/^([a-z0-9][a-z0-9.-]*\.html)?(#[\w-]+)?$/);
    if (link.startsWith('#')) expect(ids).toContain(link.slice(1));
  }
  expect(opened.filter(({ name }) => /^(script|iframe|object|embed|img|link|form|input|base)$/.test(name))).toEqual([]);
  expect(opened.flatMap(({ attributes }) => [...attributes.keys()].filter((key) => /^on|^src/.test(key)))).toEqual([]);
  expect(new TextEncoder().encode(html).length).toBeLessThanOrEqual(500_000);
}
