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
  /** Which addresses besides its own it may ask for: those of pages it links to. Default none. */
  readonly mayAsk?: (url: string) => boolean;
}

/** Open a page by its address, in a window of its own without a network, and write down everything it should not do. */
export async function openWatched(address: string, options: WatchedPageOptions = {}): Promise<WatchedPage> {
  const { before, mayAsk = () => false, ...contextOptions } = options;
  const context = await openContext(contextOptions);
  if (before !== undefined) await context.addInitScript(before);
  const page = await context.newPage();
  // Patient, since machines that test are often busy; a test has its own limit.
  page.setDefaultTimeout(100_000);
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
    const isOwn = url.split('#')[0] === address.split('#')[0] || /^(?:blob|data):/.test(url);
    if (!isOwn && !mayAsk(url)) problems.push(`request: ${url}`);
  });
  await page.goto(address);
  return { page, problems };
}
