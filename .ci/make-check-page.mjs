// Makes dist/check.html, the driver's check: one file that holds its script, its style and its icons, so that it works
// from disk and without a network. The policy in it names the script and the style by their SHA-256: nothing else runs.
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { deflateSync } from 'node:zlib';
import { build, transform } from 'esbuild';
import { minify } from 'terser';

const path = (file) => fileURLToPath(new URL(`../${file}`, import.meta.url));
const OUTPUT = path('dist/check.html');

/** Sheets are checked with zod; in the page its small form stands in, see src/driver/zod-in-page.ts. */
const smallZod = {
  name: 'small-zod',
  setup: ({ onResolve }) =>
    onResolve({ filter: /^zod$/ }, ({ importer }) =>
      /[\\/]src[\\/]sheets[\\/]/.test(importer) ? { path: path('src/driver/zod-in-page.ts') } : undefined,
    ),
};

/**
 * Leaves out words that only `explain` and the README show: what each element means and which documents name it, and what
 * each finding code stands for. The build ends should the page come to use them.
 */
const fewerWords = {
  name: 'fewer-words',
  setup({ onLoad }) {
    const load = (pattern, replacement) => async (args) => ({
      contents: (await readFile(args.path, 'utf8')).replace(pattern, replacement),
      loader: 'ts',
    });
    onLoad(
      { filter: /[\\/]src[\\/]dictionary[\\/]\w+-segments\.ts$/ },
      // Name, meaning, kind, span, and then the documents it is from.
      load(
        /(defineElement\(\s*'\w+',\s*)'(?:[^'\\]|\\.)*'(,\s*'[\w-]+',\s*(?:null|'\w+'))(?:,\s*[A-Z]\w*)*/g,
        "$1''$2",
      ),
    );
    onLoad({ filter: /[\\/]src[\\/]findings[\\/]codes\.ts$/ }, load(/(entry\(\s*'\w+',\s*)'(?:[^'\\]|\\.)*'/g, "$1''"));
  },
};

/** Of the CSV reader what reaches for files, the network or a worker of its own; the page gives it text. */
const UNUSED_OF_CSV = [
  'JsonToCsv',
  'NetworkStreamer',
  'FileStreamer',
  'ReadableStreamStreamer',
  'DuplexStreamStreamer',
  'newWorker',
  'mainThreadReceivedMessage',
  'completeWorker',
  'workerThreadReceivedMessage',
  'getWorkerBlob',
];

const csvOfText = {
  name: 'csv-of-text',
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]papaparse(?:\.min)?\.js$/ }, async () => ({
      contents: UNUSED_OF_CSV.reduce(
        emptyFunction,
        await readFile(path('node_modules/papaparse/papaparse.js'), 'utf8'),
      ),
      loader: 'js',
    }));
  },
};

function emptyFunction(source, name) {
  const whole = new RegExp(`^\\tfunction ${name}\\([\\s\\S]*?^\\t}$`, 'm');
  if (!whole.test(source)) throw new Error(`papaparse has no function ${name} any more: look at what it has instead`);
  return source.replace(whole, `\tfunction ${name}() {}`);
}

async function bundleScript() {
  const result = await build({
    entryPoints: [path('src/driver/index.ts')],
    bundle: true,
    minify: true,
    write: false,
    format: 'iife',
    platform: 'browser',
    // What the core uses of the language's library is of 2023; its syntax is no newer.
    target: 'es2022',
    // A few characters are more than ASCII, and the page says that it is UTF-8.
    charset: 'utf8',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    legalComments: 'none',
    define: { PAPA_BROWSER_CONTEXT: 'true' },
    plugins: [smallZod, fewerWords, csvOfText],
    logLevel: 'warning',
  });
  const script = result.outputFiles[0].text;
  if (/\.(?:meaning|sources)\b/.test(script))
    throw new Error('the page uses words of elements that its build leaves out');
  // Neither may end the element that the script stands in.
  return (await squeeze(script))
    .trim()
    .replace(/<\/script/gi, '<\\/script')
    .replace(/<!--/g, '<\\!--');
}

/** The bundle once more through a minifier that looks at the whole of it: a phone loads the page over a slow network. */
async function squeeze(script) {
  const { code } = await minify(script, {
    ecma: 2020,
    module: true,
    compress: { ecma: 2020, passes: 3, pure_getters: true, unsafe_arrows: true },
  });
  return code;
}

async function minifyStyle() {
  const { code } = await transform(readFileSync(path('src/driver/page/style.css')), { loader: 'css', minify: true });
  return code.trim();
}

const ICON = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 180 180"><path fill="#12303a" d="M0 0h180v180H0z"/><path fill="none" stroke="#f6f1e4" stroke-width="12" d="M30 50q30-40 60 0t60 0M30 90q30-40 60 0t60 0"/><path fill="none" stroke="#83d39c" stroke-width="16" d="M45 130l30 26 60-46"/></svg>`;

/** The touch icon of phones that take no SVG: the same mark, as a picture of dots (PNG as W3C has it). */
function drawTouchIcon() {
  const size = 180;
  const rows = Array.from({ length: size }, (_, y) =>
    Buffer.from([0, ...Array.from({ length: size }, (_, x) => colourAt(x, y))]),
  );
  const header = Buffer.alloc(13);
  header.writeUInt32BE(size, 0);
  header.writeUInt32BE(size, 4);
  header.set([8, 3], 8); // 8 bits a dot, colours from a palette
  const palette = Buffer.from([0x12, 0x30, 0x3a, 0xf6, 0xf1, 0xe4, 0x83, 0xd3, 0x9c]);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('PLTE', palette),
    chunk('IDAT', deflateSync(Buffer.concat(rows), { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const ends = Buffer.alloc(8);
  ends.writeUInt32BE(data.length, 0);
  ends.writeUInt32BE(crc32(body), 4);
  return Buffer.concat([ends.subarray(0, 4), body, ends.subarray(4)]);
}

/** The check value of a piece of a PNG: CRC-32 as ISO 3309 has it. */
function crc32(bytes) {
  let crc = ~0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return ~crc >>> 0;
}

/** Two turns of a coil, and a tick below them. */
function colourAt(x, y) {
  const isInside = x >= 30 && x <= 150;
  const wave = 20 * Math.sin(((x - 30) / 60) * Math.PI);
  if (isInside && [50, 90].some((middle) => Math.abs(y - middle + wave) < 7)) return 1;
  const isTick =
    (x >= 45 && x < 75 && Math.abs(y - (130 + ((x - 45) * 26) / 30)) < 11) ||
    (x >= 75 && x <= 135 && Math.abs(y - (156 - ((x - 75) * 46) / 60)) < 11);
  return isTick ? 2 : 0;
}

const hashOf = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

function writePolicy(script, style) {
  return [
    "default-src 'none'",
    `script-src ${hashOf(script)} blob:`,
    'worker-src blob:',
    `style-src ${hashOf(style)}`,
    'img-src data:',
    'manifest-src data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

const [script, style] = [await bundleScript(), await minifyStyle()];
const page = `<!doctype html>
<!-- coilbook check: made by .ci/make-check-page.mjs. Holds parts of preact (c) Jason Miller, papaparse (c) Matthew Holt,
zod (c) Colin McDonnell and date-fns (c) Sasha Koss and Lesha Koss, each under the MIT License, and of their contributors. -->
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${writePolicy(script, style)}">
<title>coilbook check</title>
<meta name="description" content="Is this capture of a vending machine whole? Read on this device, offline.">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light dark">
<meta name="theme-color" content="#12303a">
<meta name="format-detection" content="telephone=no">
<meta name="mobile-web-app-capable" content="yes">
<meta name="apple-mobile-web-app-capable" content="yes">
<meta name="apple-mobile-web-app-title" content="coilbook">
<link rel="icon" href="data:image/svg+xml,${encodeURIComponent(ICON)}" type="image/svg+xml">
<link rel="apple-touch-icon" href="data:image/png;base64,${drawTouchIcon().toString('base64')}">
<style>${style}</style>
</head>
<body>
<div id="page"><p>If nothing else appears here, this browser is older than 2022 or may not run scripts.</p></div>
<script id="program">${script}</script>
</body>
</html>
`;
mkdirSync(path('dist'), { recursive: true });
writeFileSync(OUTPUT, page);
