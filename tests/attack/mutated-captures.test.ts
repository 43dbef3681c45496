import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ROOT, runProgram } from '../cli/run-program.js';
import { makeFolder } from '../io/temporary-folder.js';
import { SeededRandom } from '../support/demo/seeded-random.js';
import { mutate, reseal } from './mutate.js';

/** How many captures are changed, and from which seed on: few where everything is tested, more by `npm run attack`. */
const CAPTURES = Number(process.env.COILBOOK_ATTACK ?? 480);
const SEED = Number(process.env.COILBOOK_ATTACK_SEED ?? 9);
const AT_ONCE = 12;

const DEMO = join(ROOT, 'fixtures/demo');
const captures = readdirSync(join(DEMO, 'captures')).map((name) => ({
  name,
  bytes: readFileSync(join(DEMO, 'captures', name)),
}));
const SHEETS = ['machines', 'plan', 'captures', 'counts'];

/** A folder of the captures of two machines, most of them changed, with sheets of which some are changed too. */
function makeAttack(random: SeededRandom): { folder: string; changed: number } {
  const folder = makeFolder();
  mkdirSync(join(folder, 'in'));
  const machines = [random.nat(8) + 1, random.nat(8) + 1].map((number) => `v10${number}`);
  const chosen = captures.filter(({ name }) => machines.some((machine) => name.includes(machine))).slice(0, AT_ONCE);
  let changed = 0;
  for (const { name, bytes } of chosen) {
    const isChanged = random.nat(10) > 0;
    if (isChanged) changed++;
    const harmed = isChanged ? mutate(bytes, random) : bytes;
    writeFileSync(join(folder, 'in', name), isChanged && random.nat(2) === 0 ? reseal(harmed) : harmed);
  }
  for (const name of SHEETS) {
    const bytes = readFileSync(join(DEMO, `${name}.csv`));
    writeFileSync(join(folder, `${name}.csv`), random.nat(3) === 0 ? mutate(bytes, random) : bytes);
  }
  return { folder, changed };
}

const sheets = ['--machines', 'machines.csv', '--plan', 'plan.csv', '--captures-list', 'captures.csv'];
const COMMANDS: readonly (readonly string[])[] = [
  ['check', 'in', ...sheets],
  ['check', 'in', ...sheets, '--json'],
  ['interval', 'in', ...sheets],
  ['interval', 'in', ...sheets, '--json'],
  ['interval', 'in', ...sheets, '--csv'],
  ['settle', '--captures', 'in', '--counts', 'counts.csv', ...sheets],
  ['settle', '--captures', 'in', '--counts', 'counts.csv', ...sheets, '--json'],
];

// Everything that a terminal acts on but the end of a line: C0, DEL and C1 (ECMA-48), marks that turn the direction of text.
const UNSAFE = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;

describe('captures and sheets changed as chance has it', () => {
  it(`end no command with a defect, and print nothing unsafe: ${CAPTURES} captures from seed ${SEED}`, {
    timeout: 0,
  }, async () => {
    let done = 0;
    for (let round = 0; done < CAPTURES; round++) {
      // A round has a seed of its own, so that it can be run again alone.
      const seed = SEED + round;
      const { folder, changed } = makeAttack(new SeededRandom(seed));
      for (const argv of COMMANDS) {
        const { status, out, err } = await runProgram(argv, { cwd: folder });
        // Tables and JSON are for programs, and carry what a capture says as it is.
        const isForPeople = !argv.some((one) => one === '--json' || one === '--csv');
        const what = `COILBOOK_ATTACK=1 COILBOOK_ATTACK_SEED=${seed}: ${argv.join(' ')} in ${folder}`;
        expect([what, status === 70, err.includes('defect')]).toEqual([what, false, false]);
        expect([what, UNSAFE.exec(isForPeople ? out + err : err)?.[0]]).toEqual([what, undefined]);
        expect([what, /\bNaN\b|\bundefined\b|\bInfinity\b/.exec(out)?.[0]]).toEqual([what, undefined]);
        if (argv.includes('--json')) for (const line of out.split('\n').filter(Boolean)) JSON.parse(line);
      }
      rmSync(folder, { recursive: true });
      done += changed;
    }
  });
});
