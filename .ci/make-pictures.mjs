// Makes the pictures that README.md shows, from the pages of the demo and from the driver's check: run `npm run demo` first,
// then `node .ci/make-pictures.mjs`. Small on purpose: they are kept with the source.
import { accessSync, constants, existsSync, mkdirSync, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const path = (file) => fileURLToPath(new URL(`../${file}`, import.meta.url));
const LARGEST = 80_000;
const LARGEST_TOGETHER = 300_000;
const DAY = 'demo/2026-11-23';

/** The browser: what COILBOOK_CHROMIUM names, else the first of its usual names on the path, as for the tests. */
function findChromium() {
  const { COILBOOK_CHROMIUM: named, PATH = '' } = process.env;
  if (named !== undefined && named !== '') return named;
  const names = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];
  const found = PATH.split(delimiter)
    .flatMap((folder) => names.map((name) => join(folder, name)))
    .find(isProgram);
  if (found === undefined) throw new Error('no Chromium on the path, nor named by COILBOOK_CHROMIUM');
  return found;
}

function isProgram(file) {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/**
 * What is taken of which page: its address, how wide the window is, how high the picture may be, and the text of the heading
 * that stands at its top; without one, the top of the page.
 */
const PICTURES = [
  { name: 'day', page: `${DAY}/index.html`, width: 800, height: 470 },
  { name: 'machine-cash', page: `${DAY}/machine-v107.html`, width: 800, height: 520, from: 'Where the cash went' },
  { name: 'settlement', page: `${DAY}/settlement-r7-eur.html`, width: 1100, height: 470, from: 'Driver:' },
  {
    name: 'check',
    page: 'dist/check.html',
    width: 360,
    height: 640,
    files: ['fixtures/demo/captures/2026-11-22-2212-v107.dex'],
  },
];

async function take(browser, { name, page: file, width, height, from, files }) {
  if (!existsSync(path(file))) throw new Error(`${file} is not there: npm run demo makes it`);
  const context = await browser.newContext({
    viewport: { width, height },
    deviceScaleFactor: 1,
    colorScheme: 'light',
    offline: true,
  });
  const page = await context.newPage();
  await page.goto(pathToFileURL(path(file)).href);
  if (files !== undefined) {
    await page.setInputFiles('#choose', files.map(path));
    await page.locator('#answer').waitFor();
    await page.evaluate('document.activeElement?.blur(), scrollTo(0, 0)');
  }
  const y = from === undefined ? 0 : await topOf(page, from);
  const picture = `fixtures/pictures/${name}.png`;
  await page.screenshot({ path: path(picture), fullPage: true, clip: { x: 0, y, width, height } });
  await context.close();
  const { size } = statSync(path(picture));
  console.log(`${picture}  ${size} bytes`);
  if (size > LARGEST) throw new Error(`${picture} is larger than ${LARGEST} bytes`);
  return size;
}

/** How far down the page a heading stands, with a little room above it. */
async function topOf(page, heading) {
  const box = await page.getByRole('heading', { name: heading }).first().boundingBox();
  return Math.max(0, Math.floor(box.y) - 12);
}

mkdirSync(path('fixtures/pictures'), { recursive: true });
// Without a sandbox of its own, as in the tests: containers allow none, and the pages are ours.
const browser = await chromium.launch({
  executablePath: findChromium(),
  args: ['--no-sandbox', '--disable-dev-shm-usage', '--hide-scrollbars'],
});
let together = 0;
try {
  for (const picture of PICTURES) together += await take(browser, picture);
} finally {
  await browser.close();
}
console.log(`together ${together} bytes`);
if (together > LARGEST_TOGETHER) throw new Error(`the pictures are larger than ${LARGEST_TOGETHER} bytes together`);
