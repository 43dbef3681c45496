import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { isAbandoned, markUnfinished } from '../../src/io/index.js';

const HOUR = 60 * 60 * 1000;

it('tells what a run left that is no more from what another is writing', () => {
  const mine = `a.csv.${markUnfinished()}.part`;
  expect(markUnfinished()).not.toBe(markUnfinished());
  expect(isAbandoned(mine, Date.now())).toBe(false);
  expect(isAbandoned(mine, Date.now() - 2 * HOUR)).toBe(true);
  // A process that was there and is gone.
  const { pid } = spawnSync(process.execPath, ['--version']);
  const left = mine.replace(`-${process.pid}-`, `-${pid}-`);
  expect(isAbandoned(left, Date.now())).toBe(true);
  // The same number on another computer tells nothing.
  const elsewhere = left.replace(
    /\.([0-9a-f]{6})-/,
    (_, host: string) => `.${host === '000000' ? '000001' : '000000'}-`,
  );
  expect(isAbandoned(elsewhere, Date.now())).toBe(false);
  expect(isAbandoned(elsewhere, Date.now() - 2 * HOUR)).toBe(true);
  expect(isAbandoned('old.part', Date.now())).toBe(false);
});
