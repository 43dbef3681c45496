import type { ComponentChildren } from 'preact';
import { printable } from '../../findings/index.js';
import type { Site } from './site.js';
import { STYLE_SHEET } from './style-sheet.js';

/** What a page is. */
export interface PageProps {
  /** What the page is about; stands in the head of the page. */
  readonly title: string;
  readonly site: Site;
  /** The page's own file name: its link in the navigation is marked. */
  readonly here: string;
  readonly lang?: string;
  readonly children: ComponentChildren;
}

const LONGEST_TITLE = 240;

/** Nothing may be fetched and no script may run, whatever a capture says. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/** A whole page: heading, ways to the others, what it says, how it was made. The heading `h1` is its title. */
export function Page({ title: said, site, here, lang = 'en', children }: PageProps) {
  const title = printable(said, LONGEST_TITLE);
  return (
    <html lang={lang}>
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content={POLICY} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="referrer" content="no-referrer" />
        <title>{`${title} · ${site.day}`}</title>
        <style>{STYLE_SHEET}</style>
      </head>
      <body>
        <a class="skip" href="#main">
          Skip to the page
        </a>
        <Ways site={site} here={here} />
        <main id="main">
          <h1>{title}</h1>
          {children}
        </main>
        <Made site={site} />
      </body>
    </html>
  );
}

function Ways({ site, here }: Pick<PageProps, 'site' | 'here'>) {
  return (
    <nav class="top" aria-label="Pages">
      <ul>
        {site.nav.map(({ href, text }) => (
          <li key={href}>
            <a href={href} aria-current={href === here ? 'page' : undefined}>
              {text}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

/** How the page was made: what to hold it against. */
function Made({ site: { day, book } }: { readonly site: Site }) {
  return (
    <footer class="made">
      <dl>
        <dt>Day</dt>
        <dd>
          <time dateTime={day}>{day}</time>
        </dd>
        <dt>Book</dt>
        {book === null ? (
          <dd>Made without a book</dd>
        ) : (
          <dd>
            {book.size} entries, root <span class="hash">{book.root}</span>
          </dd>
        )}
      </dl>
    </footer>
  );
}
