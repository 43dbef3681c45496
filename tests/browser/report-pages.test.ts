import { afterAll, beforeAll, expect, it } from 'vitest';
import { checkPage, EVERY_LOOK, TWO_LOOKS } from './support/check-page.js';
import { describeInBrowser } from './support/launch.js';
import { makeDemoReport, openReport, type ReportFolder, readPage } from './support/report-folder.js';

const SAMPLE = ['index.html', 'machine-v103.trend.html', 'settlement-r7-eur.html'];

describeInBrowser('report pages', () => {
  let report: ReportFolder;
  beforeAll(async () => {
    report = await makeDemoReport();
  });
  afterAll(() => report.remove());

  it('are of all kinds, none larger than 500 KB', () => {
    for (const name of [...SAMPLE, 'machine-v101.html', 'machine-v101.trend.html']) {
      expect(report.pages).toContain(name);
    }
    expect(report.pages.filter((name) => /^machine-v10\d\.html$/.test(name))).toHaveLength(8);
    for (const name of report.pages) {
      expect([name, Buffer.byteLength(readPage(report, name)) <= 500_000]).toEqual([name, true]);
    }
  });

  it('open from disk without a complaint or a request, are as wide as a phone, and are accessible by axe-core', async () => {
    const found: string[] = [];
    for (const [place, name] of report.pages.entries()) {
      const watched = await openReport(report, name);
      // By turns: a machine's pages are much alike.
      const looks = [TWO_LOOKS[place % 2]!];
      found.push(...(await checkPage(watched, looks)).map((problem) => `${name}: ${problem}`));
      expect(await watched.page.locator('h1').count()).toBe(1);
      await watched.page.context().close();
    }
    expect(found).toEqual([]);
    // Some hundred thousand elements in all, on machines that may be busy.
  }, 300_000);

  it.each(SAMPLE)('%s is sound in every look', async (name) => {
    expect(await checkPage(await openReport(report, name), EVERY_LOOK)).toEqual([]);
  });

  it('lead only to pages that are there, and to places that are on them', async () => {
    const idsOf = new Map<string, Set<string>>();
    const links: [string, string][] = [];
    const { page } = await openReport(report, report.pages[0]!);
    for (const name of report.pages) {
      await page.goto(`file://${report.folder}/${name}`);
      const { ids, hrefs } = await page.evaluate<{ ids: string[]; hrefs: string[] }>(`({
        ids: [...document.querySelectorAll('[id]')].map((element) => element.id),
        hrefs: [...document.querySelectorAll('a, area, link, form')].map((element) => element.getAttribute('href') ?? element.tagName),
      })`);
      expect([name, ids.length]).toEqual([name, new Set(ids).size]);
      idsOf.set(name, new Set(ids));
      links.push(...hrefs.map((href): [string, string] => [name, href]));
    }
    const broken = links.filter(([name, href]) => {
      const [file, id] = href.split('#');
      const ids = idsOf.get(file === '' ? name : file!);
      return ids === undefined || (id !== undefined && !ids.has(id));
    });
    expect(broken).toEqual([]);
    const reached = new Set(links.map(([name, href]) => href.split('#')[0] || name));
    expect([...reached].sort()).toEqual(report.pages);
  });

  it('show where a figure comes from, though that is folded away, to whoever follows the figure’s link', async () => {
    const { page, problems } = await openReport(report, 'machine-v103.html');
    for (const kind of ['column', 'total', 'cash']) {
      const link = page.locator(`a[href^="#how-"][href*="${kind}"]:visible`).first();
      const target = page.locator((await link.getAttribute('href'))!);
      expect(await target.isVisible()).toBe(false);
      await link.click();
      // By the fragment the browser opens whatever the place is folded into.
      expect(await target.isVisible()).toBe(true);
    }
    expect(problems).toEqual([]);
  });

  it('can be read by keyboard alone', async () => {
    const { page, problems } = await openReport(report, 'index.html', { viewport: { width: 360, height: 740 } });
    await page.keyboard.press('Tab');
    expect(await page.evaluate('document.activeElement.className')).toBe('skip');
    expect((await page.locator('.skip').boundingBox())!.x).toBeGreaterThanOrEqual(0);
    await page.keyboard.press('Enter');
    expect(new URL(page.url()).hash).toBe('#main');
    // From there the next stop is in the list of what to look at.
    await page.keyboard.press('Tab');
    expect(await page.evaluate('document.activeElement.closest(".look") !== null')).toBe(true);
    expect(await page.evaluate('document.activeElement.getAttribute("href")')).toMatch(/^machine-v10\d\.html/);
    for (let presses = 0; presses < 20; presses++) {
      if (await page.evaluate('document.activeElement.tagName === "SUMMARY"')) break;
      await page.keyboard.press('Tab');
    }
    await page.keyboard.press('Enter');
    expect(await page.evaluate('document.activeElement.parentElement.open')).toBe(true);
    // And every link of the list is a stop, in the order in which they stand.
    const hrefs = await page.evaluate<string[]>(
      `[...document.querySelectorAll('.look > li > h3 > a, .look > li > h3 a')].map((a) => a.getAttribute('href'))`,
    );
    expect(hrefs.length).toBeGreaterThan(5);
    await page.locator('.look a').first().focus();
    const stops: string[] = [];
    for (let presses = 0; presses < 200; presses++) {
      const at = await page.evaluate<string | null>(
        'document.activeElement.matches(".look h3 a") ? document.activeElement.getAttribute("href") : null',
      );
      if (at !== null) stops.push(at);
      if (!(await page.evaluate('document.activeElement.closest(".look") !== null'))) break;
      await page.keyboard.press('Tab');
    }
    expect(stops).toEqual(hrefs);
    expect(problems).toEqual([]);
  });
});
