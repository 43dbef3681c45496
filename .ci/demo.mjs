// The main job on the demo data: an invented operator, one route, eight machines, four days. Prints what a driver and the
// office would type and what they see.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';

const demo = 'fixtures/demo';
const captures = `${demo}/captures`;
const office = [
  `--machines ${demo}/machines.csv`,
  `--plan ${demo}/plan.csv`,
  `--captures-list ${demo}/captures.csv`,
].join(' ');

const say = (text) => console.log(`\n${text}\n`);

/** Run a command as a user would type it, and show it; of what it prints the first lines, if so many are given. */
function type(line, lines = Number.POSITIVE_INFINITY) {
  console.log(`$ coilbook ${line}\n`);
  const { status, stdout } = spawnSync(process.execPath, ['bin/coilbook.js', ...line.split(' ')], {
    stdio: ['ignore', 'pipe', 'inherit'],
    encoding: 'utf8',
    maxBuffer: 2 ** 26,
  });
  const printed = stdout.trimEnd().split('\n');
  console.log(printed.slice(0, lines).join('\n'));
  if (printed.length > lines) console.log(`... (${printed.length - lines} more lines)`);
  console.log(`\n(exit status ${status})`);
  // 0, 1 and 2 say what was found; anything else is a failure of the demo itself.
  if (status === null || status > 2) process.exit(1);
  return stdout;
}

say('The demo: Thistlequay Vending, an operator that does not exist. Route R7, 20 to 23 November 2026.');

say('1. THE DRIVER AT THE MACHINE. A capture that arrived whole, one with a byte changed on the way, one cut short.');
type(`check ${captures}/2026-11-23-0805-v101.dex`);
type(`check ${captures}/2026-11-22-2212-v107.dex ${office}`);
type(`check ${captures}/2026-11-21-2206-v104.dex ${office}`);

say('2. THE OFFICE, THE NEXT MORNING. Eight bags were counted. What should be in them, and what is short?');
type(`settle --captures ${captures} --counts ${demo}/counts.csv --day 2026-11-23 ${office}`);

say('3. WHERE A FIGURE COMES FROM. The coins expected in the bag that is short, down to the lines of the captures.');
type(`explain --figure visits.B4406.expected.coins ${captures} --counts ${demo}/counts.csv --day 2026-11-23 ${office}`);

// The night before, one capture has not come yet.
const work = 'demo';
const late = '2026-11-23-0859-v103.dex';
rmSync(work, { recursive: true, force: true });
mkdirSync(`${work}/late`, { recursive: true });
cpSync(captures, `${work}/in`, { recursive: true });
renameSync(`${work}/in/${late}`, `${work}/late/${late}`);
writeFileSync(`${work}/in/notes.txt`, 'No capture, and not lost either.\n');
const book = `--book ${work}/coilbook.db`;

say('4. THE NIGHT RUN. Everything that came in goes into the book; one list of what to look at, worst first.');
type(`day ${work}/in --day 2026-11-23 ${book} ${office} --counts ${demo}/counts.csv --out ${work}/2026-11-23`, 34);

say('5. CLOSING. The round is closed with what is known. V103 gave no capture at its visit, so its bag stays open.');
type(`settle ${book} --day 2026-11-23 --counts ${demo}/counts.csv ${office} --close --by Office`, 22);

say(
  '6. A LATE CAPTURE. The capture of V103 comes a day later. The closed round stays as it was; an adjustment says what changed.',
);
type(`day ${work}/late --day 2026-11-24 ${book} ${office}`, 8);
type(`settle ${book} --day 2026-11-23 ${office}`, 34);

say(
  '7. PROVABLE. What is written down elsewhere shows whether somebody changed the book. Somebody changes one byte behind its back: the count of V106, so that nothing is short.',
);
const [, size, root] = /"size":(\d+).*"root":"([0-9a-f]+)"/.exec(type(`book head ${book} --json`));
type(`book verify ${book} --size ${size} --root ${root}`, 1);
const bytes = readFileSync(`${work}/coilbook.db`);
// The count of bag B4406 as the book holds it: 121.10 EUR in coins become 126.10, and the 5.00 short are gone.
const count = bytes.indexOf('"bag":"B4406","bills"');
const coins = bytes.indexOf('"coins":12110', count);
if (count < 0 || coins < 0) throw new Error('the book of the demo has no count of bag B4406 to change');
bytes.write('6', coins + '"coins":12'.length);
writeFileSync(`${work}/changed.db`, bytes);
type(`book verify --book ${work}/changed.db --size ${size} --root ${root}`);

say(`What to look at:
  - V106 is 5.00 EUR short in coins: count that bag again.
  - V105 had its control board changed; V108 gave no capture. Their bags stay open, and what is expected is a floor.
  - V107 sells column 23 at 1.40 EUR where the plan says 1.50.
  - Two captures must be read again: one damaged (V107, 22 November), one cut short (V104, 21 November).
  - The same read of V101 came twice, and once more with its line endings changed by e-mail: each counts once.`);
