import { readFileSync, writeFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { type DigitsOfElement, measureDigits } from './measure-digits.js';

/** Machines of each kind there is, with trade of their own; more of them by `npm run attack`. */
const SEEDS = [0, 1, 2, 3, 4];
const MORE = process.env.COILBOOK_ATTACK === undefined ? [] : Array.from({ length: 60 }, (_, i) => i + 5);
const TABLE = new URL('../../src/explain/unconfirmed-elements.ts', import.meta.url);

let found: ReadonlyMap<string, DigitsOfElement>;
beforeAll(() => {
  found = measureDigits(SEEDS);
}, 120_000);

const namesOf = (holds: (digits: DigitsOfElement) => boolean): string[] =>
  [...found].flatMap(([name, digits]) => (holds(digits) ? [name] : [])).sort();

/** The table as it was measured. */
function writeTable(): string {
  const list = (names: readonly string[]): string => names.map((name) => `  '${name}',\n`).join('');
  return `// Made by tests/attack/unconfirmed.test.ts, which changes every digit of every element of captures and makes their integrity value
// fit again: \`COILBOOK_WRITE_UNCONFIRMED=1 npx vitest run tests/attack/unconfirmed.test.ts\`.

/** Elements that nothing else in a capture, in the one before or in the one after confirms: none of their changed digits was doubted. */
export const UNCONFIRMED: ReadonlySet<string> = new Set([
${list(namesOf(({ changed, unnamed }) => unnamed === changed))}]);

/** Elements of which only some were: on some machines, or where the changed figure could not be. */
export const PARTLY_CONFIRMED: ReadonlySet<string> = new Set([
${list(namesOf(({ changed, unnamed }) => unnamed > 0 && unnamed < changed))}]);
`;
}

describe('a digit changed by hand, with the integrity value made to fit', () => {
  it('moves no settled figure without a doubt', () => {
    const moved = (digits: ReadonlyMap<string, DigitsOfElement>) =>
      [...digits].filter((each) => each[1].moved > 0).map(([name, digits]) => `${name}: ${digits.moved}`);
    expect(moved(found)).toEqual([]);
    if (MORE.length > 0) expect(moved(measureDigits(MORE))).toEqual([]);
  }, 3_600_000);

  it('is tried on all that is counted', () => {
    let changed = 0;
    for (const digits of found.values()) changed += digits.changed;
    expect(changed).toBeGreaterThan(2500);
    for (const name of ['VA101', 'CA305', 'CA306', 'DA201', 'DB201', 'TA201', 'PA201', 'PA202', 'CA1501'])
      expect([name, found.get(name)?.changed ?? 0]).toEqual([name, expect.toSatisfy((count: number) => count > 3)]);
  });

  it('is named for the figures that settling rests on, and the table names all others', () => {
    const table = writeTable();
    if (process.env.COILBOOK_WRITE_UNCONFIRMED === '1') writeFileSync(TABLE, table);
    expect(readFileSync(TABLE, 'utf8')).toBe(table);
    for (const name of ['VA101', 'VA102', 'CA201', 'CA305', 'CA306', 'CA307', 'DA201', 'PA201', 'PA202'])
      expect(table).not.toContain(`'${name}'`);
  });
});
