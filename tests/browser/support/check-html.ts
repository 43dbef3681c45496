import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { openWatched, type WatchedPage, type WatchedPageOptions } from './watched-page.js';

/** The driver's check, as `npm run build` makes it. */
export const CHECK_HTML = fileURLToPath(new URL('../../../dist/check.html', import.meta.url));

/** A file as a test gives it to the page. */
export interface GivenFile {
  readonly name: string;
  readonly content: Uint8Array | string;
}

/** Open the driver's check from disk, ready to take files. */
export async function openCheck(options: WatchedPageOptions = {}): Promise<WatchedPage> {
  if (!existsSync(CHECK_HTML)) throw new Error('dist/check.html is not there: npm run build makes it');
  const watched = await openWatched(pathToFileURL(CHECK_HTML).href, options);
  await watched.page.waitForSelector('#choose');
  return watched;
}

/** Choose files by the page's button, and wait until all are checked. */
export async function choose(page: Page, files: readonly GivenFile[], button = '#choose'): Promise<void> {
  const payload = files.map(({ name, content }) => ({
    name,
    mimeType: 'application/octet-stream',
    buffer: Buffer.from(content),
  }));
  await page.setInputFiles(button, payload);
  await settled(page);
}

/** Wait until the page has an answer, or has failed. */
export async function settled(page: Page): Promise<void> {
  await page.locator('main:has(#answer, #sheets, .failure):not(:has(.progress))').waitFor();
}

/** Save the checks as JSON; gives the text of the file. */
export async function saveJson(page: Page): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as JSON' }).click(),
  ]);
  return readFile(await download.path(), 'utf8');
}

/** The text of the answer: verdict, what to do, of which capture, and cautions. */
export function answerOf(page: Page): Promise<string> {
  // biome-ignore lint/performance/useDomNodeTextContent: what is shown, with its line breaks, is meant
  return page.locator('.answer').innerText();
}
