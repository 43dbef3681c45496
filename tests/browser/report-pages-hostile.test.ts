import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { checkPage, TWO_LOOKS } from './support/check-page.js';
import { HOSTILE_FILES, HOSTILE_TEXTS } from './support/hostile-files.js';
import { describeInBrowser } from './support/launch.js';
import { makeWorkplace, openReport, type ReportFolder, readReportFolder, runIn } from './support/report-folder.js';

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/** Two reads of every hostile capture, in files of hostile names, and sheets that say the same. */
async function makeHostileReport(): Promise<ReportFolder> {
  const work = makeWorkplace();
  mkdirSync(join(work, 'in'));
  for (const [place, { content }] of HOSTILE_FILES.entries()) {
    const bytes = Buffer.from(content);
    const later = Buffer.from(bytes.toString('latin1').replace('PA2*1*100', 'PA2*4*400'), 'latin1');
    writeFileSync(join(work, 'in', `<img src=x onerror=alert(${place})>\u001b[2J\u202e.dex`), bytes);
    writeFileSync(join(work, 'in', `later ${place} "onload='alert(9)'.dex`), later);
  }
  const machines = HOSTILE_TEXTS.map((text) => [text, text.replace('*', ''), text, text].map(quoted).join(','));
  writeFileSync(join(work, 'machines.csv'), `machine,asset,location,route\n${machines.join('\n')}\n`);
  const plan = HOSTILE_TEXTS.map((text) => [text, text, text].map(quoted).join(','));
  writeFileSync(
    join(work, 'plan.csv'),
    `machine,column,product,price\n${plan.map((row) => `${row},1.50`).join('\n')}\n`,
  );
  await runIn(work, 'day in --day 2026-11-23 --machines machines.csv --plan plan.csv --out out');
  return readReportFolder(work);
}

describeInBrowser('report pages of hostile files', () => {
  let report: ReportFolder;
  beforeAll(async () => {
    report = await makeHostileReport();
  });
  afterAll(() => report.remove());

  it('show them as text, and make nothing of them', async () => {
    expect(report.pages.length).toBeGreaterThan(HOSTILE_TEXTS.length);
    let all = '';
    for (const [place, name] of report.pages.entries()) {
      expect(name).toMatch(/^[a-z0-9][a-z0-9.-]*\.html$/);
      const watched = await openReport(report, name);
      const { page } = watched;
      const strange = await page.evaluate<string[]>(`[
        ...[...document.querySelectorAll('script, img, iframe, object, embed, b, i, base, form, link, body style')],
        ...[...document.querySelectorAll('*')].filter((element) => [...element.attributes]
          .some(({ name, value }) => name.startsWith('on') || (name === 'href' && /:/.test(value)))),
      ].map((element) => element.outerHTML.slice(0, 200))`);
      expect([name, strange]).toEqual([name, []]);
      const text = (await page.locator('body').textContent())!;
      expect(text.match(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e]/g)).toBeNull();
      expect([name, await checkPage(watched, [TWO_LOOKS[place % 2]!])]).toEqual([name, []]);
      all += text;
      await page.context().close();
    }
    for (const text of ['<script>alert(1)</script>', '"><svg onload=alert(3)>', '<img src=x onerror=alert(']) {
      expect(all).toContain(text);
    }
  });
});
