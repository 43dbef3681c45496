import type { VNode } from 'preact';
import { renderToString } from 'preact-render-to-string';

/** A page as the text of its file. All text in it is escaped. */
export function renderPage(page: VNode): string {
  return `<!doctype html>\n${renderToString(page)}\n`;
}

/** A part of a page as text, for measuring. */
export function renderPart(part: VNode): string {
  return renderToString(part);
}
