import { afterAll, beforeAll, expect, it } from 'vitest';
import { describeInBrowser } from './support/launch.js';
import { printedText, printPage } from './support/pdf.js';
import { makeDemoReport, openReport, type ReportFolder } from './support/report-folder.js';

const PAPERS = [
  ['A4', '210 x 297'],
  ['Letter', '216 x 279'],
] as const;

describeInBrowser('report pages on paper', () => {
  let report: ReportFolder;
  beforeAll(async () => {
    report = await makeDemoReport();
  });
  afterAll(() => report.remove());

  it('give a driver one sheet to sign, and what it rests on apart', async () => {
    const { page } = await openReport(report, 'settlement-r7-eur.html');
    const text = await printedText(page);
    for (const part of ['Robin Sample', 'signature', 'V106', '−5.00', 'entry', 'Cautions'])
      expect(text).toContain(part);
    for (const [format, size] of PAPERS) {
      const whole = await printPage(page, format);
      expect(whole.sizes).toEqual([size]);
      expect(whole.count).toBeGreaterThan(1);
    }
    // What is to be signed alone: without what begins on a new sheet behind it, which here is a list of adjustments too.
    await page.evaluate('for (const part of document.querySelectorAll(".annex, .sheet ~ *, .made")) part.remove()');
    for (const [format] of PAPERS) expect([format, (await printPage(page, format)).count]).toEqual([format, 1]);
  });

  it.each([
    ['index.html', ['To look at, worst first', 'Routes', 'Machines', 'What came in']],
    ['machine-v103.html', ['Machine V103', 'Reads', 'Sales by column', 'Cash figures', 'Coin tubes']],
  ])('%s prints whole', async (name, parts) => {
    const { page } = await openReport(report, name);
    const text = await printedText(page);
    for (const part of parts) expect(text).toContain(part);
    expect(text).not.toContain('Skip to the page');
    for (const [format, size] of PAPERS) {
      const printed = await printPage(page, format);
      expect(printed.sizes).toEqual([size]);
      expect(printed.count).toBeGreaterThan(1);
    }
    // As wide as the paper between its margins of 12 mm: nothing is cut off at the side.
    const width = Math.floor(((210 - 24) / 25.4) * 96);
    await page.setViewportSize({ width, height: 1000 });
    await page.emulateMedia({ media: 'print' });
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
  });
});
