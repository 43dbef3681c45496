import { readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { buildCapture } from '../support/build-capture.js';
import { answerOf, CHECK_HTML, choose, openCheck, settled } from './support/check-html.js';
import { checkPage, EVERY_LOOK, TWO_LOOKS } from './support/check-page.js';
import { CUT, DAMAGED, DEMO_CAPTURES, DEMO_SHEETS, demoCapture, GOOD } from './support/demo-set.js';
import { describeInBrowser } from './support/launch.js';
import { printedText, printPage } from './support/pdf.js';
import { openWatched } from './support/watched-page.js';

const PHONE = { viewport: { width: 360, height: 740 } };
const INSIDE = 'Live mains, moving and hot or cold parts are inside';
const TILT = 'Never rock or tilt a machine';

/** Whether the whole answer, cautions too, stands on the first screen. */
async function isOnFirstScreen(page: Page): Promise<boolean> {
  const box = (await page.locator('.answer').boundingBox())!;
  return box.y >= 0 && box.y + box.height <= page.viewportSize()!.height;
}

describeInBrowser('the driver’s check', () => {
  it('is one file of less than 300 KB that names no address and holds nothing that reaches a network', () => {
    expect(statSync(CHECK_HTML).size).toBeLessThan(300_000);
    const text = readFileSync(CHECK_HTML, 'utf8');
    expect(text.match(/https?:\/\/(?!www\.w3\.org\/)/g)).toBeNull();
    expect(text.match(/\b(?:XMLHttpRequest|WebSocket|EventSource|sendBeacon|importScripts)\b|\bfetch\(/g)).toBeNull();
    expect(text).toContain("default-src 'none'");
    expect(text).not.toContain('unsafe-');
  });

  it('opens from disk without an error or a request, and works in a worker', async () => {
    const watched = await openCheck(PHONE);
    expect(await watched.page.evaluate('document.documentElement.dataset.desk')).toBe('worker');
    expect(await watched.page.locator('body').textContent()).not.toContain('If nothing else appears');
    expect(await watched.page.locator('header').textContent()).toContain('Nothing leaves this device');
    expect(await watched.page.locator('link[rel=manifest]').count()).toBe(0);
    expect(await checkPage(watched, EVERY_LOOK)).toEqual([]);
  });

  it('opens from any web server, and can then be put on the home screen', async () => {
    const server = createServer((_, answer) =>
      answer.setHeader('content-type', 'text/html').end(readFileSync(CHECK_HTML)),
    );
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/check.html`;
    try {
      const watched = await openWatched(address, { ...PHONE, offline: false });
      const { page } = watched;
      await page.waitForSelector('#choose');
      const session = await page.context().newCDPSession(page);
      // What Chromium itself makes of it: no complaint, and the entry for the home screen.
      const { errors, data } = await session.send('Page.getAppManifest');
      expect(errors).toEqual([]);
      expect(JSON.parse(data ?? '')).toMatchObject({ start_url: address, display: 'standalone' });
      await choose(page, [demoCapture(GOOD)]);
      expect(await answerOf(page)).toContain('Sound');
      expect(watched.problems).toEqual([]);
    } finally {
      server.close();
    }
  });

  it('says of a good capture on the first screen that there is nothing to do', async () => {
    const watched = await openCheck(PHONE);
    await choose(watched.page, [demoCapture(GOOD)]);
    expect(await answerOf(watched.page)).toMatch(/^Sound\s+Nothing to do\.\s+TQ0101, 2026-11-23 08:05/);
    expect(await isOnFirstScreen(watched.page)).toBe(true);
    await watched.page.waitForSelector('.facts');
    expect(await watched.page.locator('tbody tr').first().textContent()).toMatch(/^11Nut mix1\.10/);
    expect(await checkPage(watched)).toEqual([]);
  });

  it.each([
    ['damaged', DAMAGED, 'integrity-damaged'],
    ['cut short', CUT, 'cut-short'],
  ])('says of a %s capture on the first screen to read again, with the cautions', async (_, name, code) => {
    const watched = await openCheck(PHONE);
    const { page } = watched;
    await choose(page, [demoCapture(name)]);
    const answer = await answerOf(page);
    expect(answer).toMatch(/^Read again\s/);
    expect(answer).toContain(INSIDE);
    expect(answer).toContain(TILT);
    expect(await isOnFirstScreen(page)).toBe(true);
    expect(await page.locator('[role=status]').first().textContent()).toMatch(/^Read again: /);
    await page.waitForSelector('.findings');
    expect(await page.locator('.finding').first().textContent()).toContain(code);
    expect(await checkPage(watched, TWO_LOOKS)).toEqual([]);
  });

  it('counts many captures first, and lists those to read again first', async () => {
    const watched = await openCheck(PHONE);
    const { page } = watched;
    await choose(page, [...DEMO_CAPTURES.map(demoCapture), ...DEMO_SHEETS]);
    expect(await answerOf(page)).toMatch(/^49 captures: 2 to read again, 7 doubtful, 40 sound\./);
    const rows = await page.locator('button.capture').allTextContents();
    expect(rows).toHaveLength(49);
    expect(rows.map((row) => /^(?:Read again|Doubtful|Sound)/.exec(row)?.[0])).toEqual([
      ...Array(2).fill('Read again'),
      ...Array(7).fill('Doubtful'),
      ...Array(40).fill('Sound'),
    ]);
    expect(await page.locator('#sheets + ul').textContent()).toContain('counts.csv: not used here');
    expect(await checkPage(watched, TWO_LOOKS)).toEqual([]);
    await page.getByRole('button', { name: 'Doubtful (7)' }).click();
    expect(await page.locator('button.capture').count()).toBe(7);
    await page.locator('button.capture').first().click();
    await page.waitForSelector('.findings');
    expect(await answerOf(page)).toMatch(/^Doubtful\s/);
    expect(await page.locator('.between').textContent()).toContain('sold for');
    expect(await checkPage(watched, TWO_LOOKS)).toEqual([]);
    await page.getByRole('button', { name: 'Back to all 49' }).click();
    // Back where one was, with what one had chosen to see.
    expect(await page.locator('button.capture').count()).toBe(7);
    expect(await page.evaluate('document.activeElement.id')).toMatch(/^capture-\d+$/);
  });

  it('shows of two captures of one machine what happened between them', async () => {
    const watched = await openCheck(PHONE);
    await choose(watched.page, ['2026-11-20-0805-v101.dex', GOOD].map(demoCapture));
    const between = watched.page.locator('.between');
    expect(await between.locator('h4').textContent()).toContain('116 sold for 149.50 EUR');
    expect(await between.locator('tfoot').textContent()).toMatch(/^Total116149\.50/);
    expect(await between.locator('tbody').last().textContent()).toContain('Tube difference0.00');
    expect(await checkPage(watched, TWO_LOOKS)).toEqual([]);
  });

  it('takes sheets and further captures to those it has, and checks them again', async () => {
    const { page, problems } = await openCheck(PHONE);
    await choose(page, [demoCapture('2026-11-20-0805-v101.dex')]);
    expect(await answerOf(page)).toContain('TQ0101');
    await choose(page, DEMO_SHEETS, '#add');
    expect(await answerOf(page)).toContain('V101');
    await choose(page, [demoCapture(GOOD)], '#add');
    expect(await answerOf(page)).toMatch(/^2 captures/);
    await choose(page, [demoCapture(CUT)]);
    expect(await answerOf(page)).toMatch(/^Read again[\s\S]*V104/);
    await page.getByRole('button', { name: 'Start again' }).click();
    expect(await page.locator('.answer, #sheets').count()).toBe(0);
    expect(problems).toEqual([]);
  });

  it('unpacks gzip, and says what it can not read', async () => {
    const { page, problems } = await openCheck(PHONE);
    await choose(page, [{ name: 'good.dex.gz', content: gzipSync(demoCapture(GOOD).content) }]);
    expect(await answerOf(page)).toMatch(/^Sound/);
    const packed = gzipSync(demoCapture(GOOD).content);
    await choose(page, [{ name: 'half.gz', content: packed.subarray(0, packed.length / 2) }]);
    expect(await answerOf(page)).toMatch(/^Read again/);
    await page.waitForSelector('.findings');
    expect(await page.locator('.findings').textContent()).toContain('damaged or cut short');
    await choose(page, [{ name: 'bomb.gz', content: gzipSync(Buffer.alloc(80 * 1024 * 1024)) }]);
    await page.waitForSelector('.findings');
    expect(await page.locator('.findings').textContent()).toContain('more than 64 MB');
    await choose(page, [{ name: 'empty.dex', content: '' }]);
    await page.waitForSelector('.findings');
    expect(await page.locator('.findings').textContent()).toContain('empty-file');
    expect(problems).toEqual([]);
  });

  it('shows the reads of a file with several one by one', async () => {
    const { page, problems } = await openCheck(PHONE);
    const joined = ['2026-11-20-0805-v101.dex', '2026-11-20-0832-v102.dex'].map((name) => demoCapture(name).content);
    await choose(page, [{ name: 'day.dex', content: Buffer.concat(joined.map((bytes) => Buffer.from(bytes))) }]);
    await page.waitForSelector('#which-read');
    expect(await page.locator('.facts').textContent()).toContain('TQ0101');
    await page.selectOption('#which-read', '1');
    await page.getByText('Read 2 of 2').waitFor();
    expect(await page.locator('.facts').textContent()).toContain('TQ0102');
    expect(problems).toEqual([]);
  });

  it('holds the machine’s clock against the time of the file only where the person says so', async () => {
    const { page } = await openCheck(PHONE);
    const capture = buildCapture(['ID1*S1*M1****A1', 'ID4*2*978*EUR', 'ID5*020304*1015', 'CB1*B1', 'VA1*100*1']);
    await choose(page, [{ name: 'old-clock.dex', content: capture }]);
    expect(await answerOf(page)).toMatch(/^Sound/);
    await page.getByLabel('Just taken').check();
    await settled(page);
    expect(await answerOf(page)).toMatch(/^Doubtful\s+Set the machine's clock/);
    expect(await answerOf(page)).toContain(INSIDE);
  });

  it('works within the page where no worker starts', async () => {
    for (const before of [
      'window.Worker = class { constructor() { throw new Error("none") } }',
      'delete window.Worker',
    ]) {
      const { page, problems } = await openCheck({ ...PHONE, before });
      expect(await page.evaluate('document.documentElement.dataset.desk')).toBe('page');
      await choose(page, [...DEMO_CAPTURES.map(demoCapture), ...DEMO_SHEETS]);
      expect(await answerOf(page)).toMatch(/^49 captures: 2 to read again, 7 doubtful, 40 sound\./);
      expect(problems).toEqual([]);
    }
  });

  it('works in browsers of 2022', async () => {
    const names = JSON.stringify(['toSorted', 'toReversed', 'findLast', 'findLastIndex', 'toSpliced', 'with']);
    // A worker would have them still.
    const before = `for (const name of ${names}) delete Array.prototype[name]; delete window.Worker`;
    const { page, problems } = await openCheck({ ...PHONE, before });
    await choose(page, [...DEMO_CAPTURES.map(demoCapture), ...DEMO_SHEETS]);
    expect(await answerOf(page)).toMatch(/^49 captures: 2 to read again, 7 doubtful, 40 sound\./);
    await page.locator('button.capture').last().click();
    await page.waitForSelector('.facts');
    expect(problems).toEqual([]);
  });

  it('shows progress, and what failed, so that anybody can read it', async () => {
    const stuck = `window.Worker = class {
      constructor() { setTimeout(() => this.onmessage({ data: { tell: 'ready' } })); }
      postMessage() { this.onmessage({ data: { tell: 'sorted', run: 1, total: 9, sheets: [] } }); }
    }`;
    const working = await openCheck({ ...PHONE, before: stuck });
    await working.page.setInputFiles('#choose', { name: 'a', mimeType: '', buffer: Buffer.from('x') });
    await working.page.getByText('0 of 9 checked').waitFor();
    expect(await checkPage(working, TWO_LOOKS)).toEqual([]);
    const broken = 'delete window.Worker; Blob.prototype.slice = () => { throw new TypeError("<b>defect</b>") }';
    const failing = await openCheck({ ...PHONE, before: broken });
    await failing.page.setInputFiles('#choose', { name: 'a', mimeType: '', buffer: Buffer.from('x') });
    const alert = failing.page.getByRole('alert');
    expect(await alert.textContent()).toContain('Trust nothing on this page');
    expect(await alert.textContent()).toContain('<b>defect</b>');
    expect(await checkPage(failing, TWO_LOOKS)).toEqual([]);
  });

  it('shares the answer as text, and copies it where the device has no sharing', async () => {
    const before = 'navigator.share = async (what) => { window.shared = what }';
    const { page } = await openCheck({ ...PHONE, before });
    await choose(page, [demoCapture(DAMAGED)]);
    await page.waitForSelector('.facts');
    await page.getByRole('button', { name: 'Share' }).click();
    await page.getByText('Shared.').waitFor();
    const { text } = await page.evaluate<{ text: string }>('window.shared');
    expect(text).toMatch(/^Read again: /);
    expect(text).toContain(`File: ${DAMAGED}`);
    expect(text).toContain(TILT);
    const copying = 'navigator.clipboard.writeText = async (text) => { window.copied = text }';
    const other = await openCheck({ ...PHONE, before: `delete Navigator.prototype.share; ${copying}` });
    await choose(other.page, [demoCapture(GOOD)]);
    await other.page.getByRole('button', { name: 'Share' }).click();
    await other.page.getByText('Copied').waitFor();
    expect(await other.page.evaluate('window.copied')).toMatch(/^Sound: nothing to do\./);
  });

  it('can be used by keyboard alone', async () => {
    const { page, problems } = await openCheck(PHONE);
    await page.keyboard.press('Tab');
    expect(await page.evaluate('document.activeElement.id')).toBe('choose');
    const chooser = page.waitForEvent('filechooser');
    // The browser is told to hand its dialog over before the key is pressed.
    await page.evaluate('0');
    await page.keyboard.press('Enter');
    await (await chooser).setFiles([GOOD, DAMAGED, CUT].map((name) => ({ ...given(name), mimeType: '' })));
    await settled(page);
    // Focus has gone to the answer; the next stops are what can be done with it.
    expect(await page.evaluate('document.activeElement.id')).toBe('answer');
    await tabTo(page, 'button.capture');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.facts');
    expect(await page.evaluate('document.activeElement.id')).toBe('answer');
    expect(await answerOf(page)).toMatch(/^Read again/);
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Enter');
    await page.waitForSelector('button.capture');
    expect(await page.evaluate('document.activeElement.className')).toContain('capture');
    // What scrolls sideways can be reached too.
    await tabTo(page, 'button.capture');
    await page.keyboard.press('Enter');
    await tabTo(page, '.scroll');
    expect(problems).toEqual([]);
  });

  it('prints the answer and what it rests on, without what can only be clicked', async () => {
    const { page } = await openCheck(PHONE);
    await choose(page, [demoCapture(DAMAGED), ...DEMO_SHEETS]);
    await page.waitForSelector('.facts');
    const text = await printedText(page);
    expect(text).toContain('Read again');
    expect(text).toContain(TILT);
    expect(text).toContain('integrity-damaged');
    for (const control of ['Share', 'Save as JSON', 'Check another', 'Start again'])
      expect(text).not.toContain(control);
    for (const [format, size] of [
      ['A4', '210 x 297'],
      ['Letter', '216 x 279'],
    ] as const) {
      const printed = await printPage(page, format);
      expect(printed.sizes).toEqual([size]);
      // Answer, findings, read and 40 columns on two sheets or three; one would be cut, more would be torn apart.
      expect([2, 3]).toContain(printed.count);
    }
    await choose(page, [{ name: 'none.dex', content: 'nothing' }]);
    expect((await printPage(page)).count).toBe(1);
    // Of a long list one page is printed, and it says so.
    await choose(
      page,
      Array.from({ length: 60 }, (_, i) => ({ name: `${i}.dex`, content: 'nothing' })),
    );
    expect(await printedText(page)).toContain('1 to 50 of 60');
  });
});

function given(name: string): { name: string; buffer: Buffer } {
  return { name, buffer: Buffer.from(demoCapture(name).content) };
}

/** Press Tab until the focus is on what the selector names. */
async function tabTo(page: Page, selector: string): Promise<void> {
  for (let presses = 0; presses < 40; presses++) {
    await page.keyboard.press('Tab');
    if (await page.evaluate<boolean>(`document.activeElement.matches(${JSON.stringify(selector)})`)) return;
  }
  throw new Error(`${selector} is not reached by the Tab key`);
}
