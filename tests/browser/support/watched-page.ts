import type { BrowserContextOptions, Page } from 'playwright-core';
import { openContext } from './launch.js';

/** A page under watch. */
export interface WatchedPage {
  readonly page: Page;
  /** What went wrong so far: errors and warnings on the console, uncaught errors, requests for anything but the page itself. */
  readonly problems: readonly string[];
}

/** How a page is opened, besides the browser's own options. */
export interface WatchedPageOptions extends BrowserContextOptions {
  /** Runs in the page before any script of its own. */
  readonly before?: string;
}

/** Open a page by its address, in a window of its own without a network, and write down everything it should not do. */
export async function openWatched(address: string, options: WatchedPageOptions = {}): Promise<WatchedPage> {
  const { before, ...contextOptions } = options;
  const context = await openContext(contextOptions);
  if (before !== undefined) await context.addInitScript(before);
  const page = await context.newPage();
  const problems: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) problems.push(`console ${message.type()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => problems.push(`uncaught: ${error.message}`));
  page.on('dialog', (dialog) => {
    problems.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  // Of the context: what workers ask for counts too.
  context.on('request', (request) => {
    const url = request.url();
    if (url.split('#')[0] !== address.split('#')[0] && !/^(?:blob|data):/.test(url)) problems.push(`request: ${url}`);
  });
  await page.goto(address);
  return { page, problems };
}
