import { describe, expect, it } from 'vitest';
import { makeSite, Page, renderPage } from '../../../src/pages/frame/index.js';
import { expectSoundPage, linksOf, textOf } from '../support/look-at-page.js';

const root = 'ab'.repeat(32);
const page = (title: string, book: { size: number; root: string } | null = null) => {
  const site = makeSite({ day: '2026-11-23', book, moreNav: [{ href: 'trend.html', text: 'Trend' }] });
  return renderPage(
    <Page title={title} site={site} here="trend.html">
      <p>Told.</p>
    </Page>,
  );
};

describe('a page', () => {
  it('has its title as heading, ways to the others, and says how it was made', () => {
    const html = page('What sold', { size: 12, root });
    expectSoundPage(html);
    expect(textOf(html)).toMatch(/^Skip to the page Day To look at .* Trend What sold Told\. Day 2026-11-23 Book 12 /);
    expect(textOf(html)).toContain(`12 entries, root ${root}`);
    expect(linksOf(html)).toContain('index.html#attention');
    expect(html).toContain('<a href="trend.html" aria-current="page">');
  });

  it('says that there was no book', () => {
    expect(textOf(page('What sold'))).toContain('Book Made without a book');
  });

  it('shows a title from outside as text', () => {
    const html = page('</title><script>alert(1)</script>');
    expectSoundPage(html);
    expect(textOf(html)).toContain('</title><script>alert(1)</script>');
  });
});
