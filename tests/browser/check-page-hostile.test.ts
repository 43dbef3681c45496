import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { answerOf, choose, type GivenFile, openCheck, settled } from './support/check-html.js';
import { checkPage, TWO_LOOKS } from './support/check-page.js';
import { HOSTILE_FILES, HOSTILE_TEXTS } from './support/hostile-files.js';
import { describeInBrowser } from './support/launch.js';

/** Elements that a page of ours never has, whatever it shows, and text characters that steer or hide. */
async function findStrange(page: Page): Promise<string[]> {
  const strange = await page.evaluate<string[]>(`[
    ...[...document.querySelectorAll('#page script, #page img, #page iframe, #page object, #page b, #page a, #page style')]
      .map((element) => element.outerHTML.slice(0, 200)),
    ...[...document.querySelectorAll('#page *')].flatMap((element) => [...element.attributes])
      .filter(({ name, value }) => name.startsWith('on') || /javascript:|alert/.test(value))
      .map(({ name, value }) => name + '=' + value.slice(0, 200)),
  ]`);
  const text = await page.evaluate<string>('document.querySelector("#page").textContent');
  return [...strange, ...(text.match(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e]/g) ?? [])];
}

describeInBrowser('hostile files', () => {
  it.each(HOSTILE_FILES.map((file) => [file.name, file] as const))('%s is shown as text', async (_, file) => {
    const watched = await openCheck({ viewport: { width: 360, height: 740 } });
    await choose(watched.page, [file]);
    await watched.page.waitForSelector('.facts');
    expect(await findStrange(watched.page)).toEqual([]);
    // The longest pieces are cut, and nothing makes the page wider than the screen.
    expect((await watched.page.locator('main').textContent())!.length).toBeLessThan(20_000);
    expect(await watched.page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(360);
    expect(watched.problems).toEqual([]);
  });

  it('all together, in the list, in two reads of one machine and in sheets, are shown as text', async () => {
    const rows = HOSTILE_TEXTS.map(
      (text, i) => `"${text.replaceAll('"', '""')}",H${i},"${text.replaceAll('"', '""')}"`,
    );
    const sheets: GivenFile[] = [
      { name: 'machines.csv', content: `machine,asset,location\n${rows.join('\n')}\n` },
      { name: 'plan.csv', content: `machine,column,product,price\n${rows.map((row) => `${row},x`).join('\n')}\n` },
    ];
    const watched = await openCheck({ viewport: { width: 360, height: 740 } });
    const { page } = watched;
    const again = HOSTILE_FILES.map(({ name, content }) => ({
      name: `again-${name}`,
      content: Buffer.from(Buffer.from(content).toString('latin1').replace('PA2*1*100', 'PA2*4*400'), 'latin1'),
    }));
    await choose(page, [...HOSTILE_FILES, ...again, ...sheets]);
    expect(await answerOf(page)).toContain(`${HOSTILE_FILES.length * 2} captures`);
    expect(await findStrange(page)).toEqual([]);
    expect(await page.locator('main').textContent()).toContain('<script>alert(1)</script>');
    expect(await checkPage(watched, TWO_LOOKS)).toEqual([]);
  });

  it('names of files are shown as text too', async () => {
    const watched = await openCheck({ viewport: { width: 360, height: 740 } });
    const { page } = watched;
    const names = [
      '<img src=x onerror=alert(5)>.dex',
      'safe\u202excod.dex',
      '\u001b[31mred\n\r.dex',
      `${'long'.repeat(1000)}.dex`,
    ];
    // Dropped, since a chooser takes no such names.
    await page.evaluate<void, readonly string[]>((given) => {
      const transfer = new DataTransfer();
      for (const name of given) transfer.items.add(new File(['nothing'], name));
      document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
    }, names);
    await page.locator('.progress, #answer').first().waitFor();
    await settled(page);
    expect(await answerOf(page)).toContain('4 captures');
    expect(await findStrange(page)).toEqual([]);
    expect(await page.locator('main').textContent()).toContain('<img src=x onerror=alert(5)>.dex');
    expect(await checkPage(watched, TWO_LOOKS)).toEqual([]);
  });
});
