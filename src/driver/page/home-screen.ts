/** What the home screen needs to know of the page. */
export interface HomeScreenEntry {
  readonly name: string;
  readonly short_name: string;
  readonly start_url: string;
  readonly id: string;
  readonly display: 'standalone';
  readonly background_color: string;
  readonly theme_color: string;
  readonly icons: readonly { readonly src: string; readonly sizes: string; readonly type: string }[];
}

/**
 * The manifest by which a browser puts the page on the home screen, as a data: URL. Null for a page opened from disk:
 * browsers take no such page as an app, and complain of a manifest there.
 */
export function writeManifest(address: string, icon: string): string | null {
  if (!/^https?:/.test(address)) return null;
  const start = address.replace(/[?#].*$/, '');
  const entry: HomeScreenEntry = {
    name: 'coilbook check',
    short_name: 'coilbook',
    start_url: start,
    id: start,
    display: 'standalone',
    background_color: '#f3efe6',
    theme_color: '#12303a',
    icons: [{ src: icon, sizes: 'any', type: 'image/svg+xml' }],
  };
  return `data:application/manifest+json,${encodeURIComponent(JSON.stringify(entry))}`;
}

/** Tell the browser of the manifest. */
export function offerHomeScreen(page: Document): void {
  const icon = page.querySelector<HTMLLinkElement>('link[rel=icon]');
  const manifest = writeManifest(page.location.href, icon?.getAttribute('href') ?? '');
  if (manifest === null) return;
  const link = page.createElement('link');
  link.rel = 'manifest';
  link.href = manifest;
  page.head.append(link);
}
