// The main job on the demo data: an invented operator, one route, eight machines, four days. Prints what a driver and the
// office would type and what they see.
import { spawnSync } from 'node:child_process';

const demo = 'fixtures/demo';
const captures = `${demo}/captures`;
const office = [
  `--machines ${demo}/machines.csv`,
  `--plan ${demo}/plan.csv`,
  `--captures-list ${demo}/captures.csv`,
].join(' ');

const say = (text) => console.log(`\n${text}\n`);

/** Run a command as a user would type it, and show it. */
function type(line) {
  console.log(`$ coilbook ${line}\n`);
  const { status } = spawnSync(process.execPath, ['bin/coilbook.js', ...line.split(' ')], { stdio: 'inherit' });
  console.log(`\n(exit status ${status})`);
  // 0, 1 and 2 say what was found; anything else is a failure of the demo itself.
  if (status === null || status > 2) process.exit(1);
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

say(`What to look at:
  - V106 is 5.00 EUR short in coins: count that bag again.
  - V105 had its control board changed; V108 gave no capture. Their bags stay open, and what is expected is a floor.
  - V107 sells column 23 at 1.40 EUR where the plan says 1.50.
  - Two captures must be read again: one damaged (V107, 22 November), one cut short (V104, 21 November).
  - The same read of V101 came twice, and once more with its line endings changed by e-mail: each counts once.`);
