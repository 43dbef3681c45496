import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium } from 'playwright-core';
import { afterAll, describe } from 'vitest';

/** Names under which systems install Chromium. */
const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

/** The browser to test with: what COILBOOK_CHROMIUM names, else the first of its usual names on the path; null for none. */
export function findChromium(): string | null {
  const { COILBOOK_CHROMIUM: named, PATH = '' } = process.env;
  if (named !== undefined && named !== '') return named;
  const places = PATH.split(delimiter).flatMap((folder) => NAMES.map((name) => join(folder, name)));
  return places.find(isProgram) ?? null;
}

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

const CHROMIUM = findChromium();

/** Tests that need a browser; without one they are reported as skipped. */
export function describeInBrowser(name: string, tests: () => void): void {
  const title = CHROMIUM === null ? `${name} (skipped: no Chromium on the path, nor named by COILBOOK_CHROMIUM)` : name;
  describe.skipIf(CHROMIUM === null)(title, tests);
}

let browser: Promise<Browser> | null = null;

/** The browser of a test file, started when it is first asked for and closed after the file's last test. */
export function openBrowser(): Promise<Browser> {
  // Without a sandbox of its own: tests run in containers that allow none, on pages of our own.
  browser ??= chromium.launch({ executablePath: CHROMIUM!, args: ['--no-sandbox', '--disable-dev-shm-usage'] });
  return browser;
}

/** A browser window of its own, with nothing kept from others and no network. */
export async function openContext(options: BrowserContextOptions = {}): Promise<BrowserContext> {
  return (await openBrowser()).newContext({ offline: true, ...options });
}

afterAll(async () => {
  await (await browser)?.close();
});
