import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { answerOf, openCheck, saveJson, settled } from './support/check-html.js';
import { checkPage, TWO_LOOKS } from './support/check-page.js';
import { DAMAGED, demoCapture, GOOD } from './support/demo-set.js';
import { describeInBrowser } from './support/launch.js';

const MANY = 5000;

/**
 * Drop so many captures at once, every tenth damaged, on a page that keeps a heartbeat: `window.gaps` is how long, in
 * milliseconds, it was silent each time.
 */
async function dropMany(page: Page, count: number): Promise<void> {
  const texts = [GOOD, DAMAGED].map((name) => Buffer.from(demoCapture(name).content).toString('latin1'));
  await page.evaluate<void, [readonly string[], number]>(
    ([[good, damaged], howMany]) => {
      const bytes = (text: string) => Uint8Array.from(text, (character) => character.charCodeAt(0));
      const [whole, harmed] = [bytes(good!), bytes(damaged!)];
      const transfer = new DataTransfer();
      for (let i = 0; i < howMany; i++) {
        transfer.items.add(new File([i % 10 === 9 ? harmed : whole], `capture-${String(i).padStart(5, '0')}.dex`));
      }
      const beats = window as unknown as { gaps: number[] };
      beats.gaps = [];
      let last = performance.now();
      setInterval(() => {
        beats.gaps.push(performance.now() - last);
        last = performance.now();
      }, 10);
      document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }));
    },
    [texts, count],
  );
}

/** Wait until the progress bar has gone past a number, and give where it stands. */
async function progressPast(page: Page, least: number): Promise<number> {
  for (;;) {
    const value = await page.evaluate<number>('document.querySelector("progress")?.value ?? Infinity');
    if (value > least) return value;
    await page.waitForTimeout(10);
  }
}

async function reportGaps(page: Page, what: string): Promise<void> {
  const gaps = await page.evaluate<number[]>('window.gaps');
  const sorted = [...gaps].sort((a, b) => b - a);
  const worst = sorted.slice(0, 5).map((gap) => Math.round(gap));
  // Evidence, never a condition: how fast a machine is says nothing of the page.
  process.stderr.write(`${what}: ${gaps.length} heartbeats, longest silences ${worst.join(', ')} ms\n`);
}

describeInBrowser('5,000 captures dropped at once', () => {
  it('leave the page at work: progress rises, it scrolls and answers, and ends with all counted', async () => {
    const { page, problems } = await openCheck({ viewport: { width: 360, height: 740 } });
    const began = Date.now();
    await dropMany(page, MANY);
    const first = await progressPast(page, 0);
    expect(first).toBeLessThan(MANY);
    // What is done meanwhile is done: a capture is opened and left again, and the list is leafed through.
    await page.locator('button.capture').first().click();
    await page.waitForSelector('.facts');
    await page.getByRole('button', { name: /^Back to all/ }).click();
    await page.getByRole('button', { name: /^Read again \(/ }).click();
    const second = await progressPast(page, first);
    expect(second).toBeGreaterThan(first);
    await settled(page);
    process.stderr.write(`${MANY} captures checked in ${Date.now() - began} ms\n`);
    await reportGaps(page, 'while checking');
    expect(await answerOf(page)).toMatch(/^5000 captures: 500 to read again, 0 doubtful, 4500 sound\./);
    // Only a page of the list is in the document.
    expect(await page.locator('button.capture').count()).toBe(50);
    await page.getByRole('button', { name: 'Next' }).click();
    expect(await page.locator('.paging').textContent()).toContain('51 to 100 of 500');
    expect((await saveJson(page)).split('\n')).toHaveLength(MANY + 1);
    expect(problems).toEqual([]);
  });

  it('can be stopped: what was checked stays, what was not is said, and the page can start again', async () => {
    const watched = await openCheck({ viewport: { width: 360, height: 740 } });
    const { page, problems } = watched;
    await dropMany(page, MANY);
    await progressPast(page, 0);
    await page.getByRole('button', { name: 'Stop' }).click();
    await settled(page);
    const answer = await answerOf(page);
    const [, checked, left] = /^(\d+) captures: .* Stopped: (\d+) of 5000 were not checked\./s.exec(answer) ?? [];
    expect(Number(checked) + Number(left)).toBe(MANY);
    expect(Number(left)).toBeGreaterThan(0);
    expect((await saveJson(page)).split('\n')).toHaveLength(Number(checked) + 1);
    expect(await checkPage(watched, TWO_LOOKS)).toEqual([]);
    await page.locator('button.capture').first().click();
    await page.waitForSelector('.facts');
    await page.getByRole('button', { name: 'Start again' }).click();
    expect(await page.locator('.answer').count()).toBe(0);
    expect(problems).toEqual([]);
  });

  it('can be stopped too where no worker starts', async () => {
    const { page, problems } = await openCheck({ before: 'delete window.Worker' });
    await dropMany(page, MANY);
    await progressPast(page, 0);
    await page.getByRole('button', { name: 'Stop' }).click();
    await settled(page);
    expect(await answerOf(page)).toMatch(/Stopped: \d+ of 5000 were not checked/);
    await reportGaps(page, 'without a worker');
    expect(problems).toEqual([]);
  });
});
