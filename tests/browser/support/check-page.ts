import { findViolations } from './axe.js';
import type { WatchedPage } from './watched-page.js';

/** How a page is looked at: a phone and a desk, by day and by night. */
export interface Look {
  readonly width: number;
  readonly scheme: 'light' | 'dark';
}

export const EVERY_LOOK: readonly Look[] = [360, 1440].flatMap((width) => [
  { width, scheme: 'light' as const },
  { width, scheme: 'dark' as const },
]);
/** One of each width and each scheme: where a page has many states. */
export const TWO_LOOKS: readonly Look[] = [EVERY_LOOK[0]!, EVERY_LOOK[3]!];

/**
 * Everything that is wrong with a page as it stands, and with what it did so far: console errors, requests, what axe-core
 * finds, and content wider than the screen. `expect(await checkPage(watched)).toEqual([])`.
 */
export async function checkPage(
  { page, problems }: WatchedPage,
  looks: readonly Look[] = EVERY_LOOK,
): Promise<string[]> {
  const found: string[] = [];
  const before = page.viewportSize();
  for (const { width, scheme } of looks) {
    await page.setViewportSize({ width, height: 800 });
    await page.emulateMedia({ colorScheme: scheme });
    const where = `${width} px, ${scheme}`;
    found.push(...(await findViolations(page)).map((violation) => `${where}: ${violation}`));
    const wide = await page.evaluate<number>('document.documentElement.scrollWidth');
    if (wide > width) found.push(`${where}: the page is ${wide} px wide`);
  }
  if (before !== null) await page.setViewportSize(before);
  await page.emulateMedia({ colorScheme: null });
  return [...problems, ...found];
}
