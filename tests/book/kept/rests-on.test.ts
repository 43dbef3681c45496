import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { RULES_VERSION } from '../../../src/book/kept/index.js';
import { workOutStale } from '../../../src/book/run/index.js';
import { DEMO, demoRoster } from '../../support/demo-files.js';
import { takeNight, workedOut } from '../run/take-night.js';
import { openBook } from '../store/temporary-book.js';

/** The version of the rules, and the digest of all that a book keeps of the demo by it. One goes with the other. */
const HELD = {
  // 3: test and free vends are held against their columns. 4: columns that changed numbers. The demo has none of either.
  version: 4,
  results: '4907e293c477a72221b40e6560ee226e8f689b2380210ca8911c834bf98c9193',
};

/** A digest of all that is kept of the demo's captures, but what binds it to the version itself. */
async function digestOfResults(): Promise<string> {
  const store = await openBook();
  const take = { roster: demoRoster() };
  const names = readdirSync(`${DEMO}/captures`).sort();
  const files = names.map((name) => ({ name, bytes: readFileSync(`${DEMO}/captures/${name}`) }));
  await takeNight(store, files, take);
  await workOutStale(store, { take });
  const { reads, steps } = await workedOut(store);
  const hash = createHash('sha256');
  for (const { rests: _, ...read } of reads) hash.update(JSON.stringify(read));
  for (const { seal: _, fromRests: __, toRests: ___, figures, ...step } of steps)
    hash.update(JSON.stringify(step)).update(figures);
  expect(Math.min(reads.length, steps.length)).toBeGreaterThan(30);
  return hash.digest('hex');
}

describe('RULES_VERSION', () => {
  it('goes up when, and only when, the same captures give other results', async () => {
    const results = await digestOfResults();
    const isSame = results === HELD.results;
    const mend = `and set HELD in this test to { version: RULES_VERSION, results: '${results}' }`;
    const advice =
      RULES_VERSION !== HELD.version
        ? `RULES_VERSION is ${RULES_VERSION}, and this test holds ${HELD.version}. ` +
          (isSame
            ? 'No result of the demo changed: where none changes at all, put the version back; else say which'
            : '') +
          ` ${mend}.`
        : 'What a book keeps of the demo has changed, and RULES_VERSION has not: books would go on with results of the old ' +
          `rules. If the change is meant, raise RULES_VERSION in src/book/kept/rests-on.ts by one ${mend}.`;
    expect(isSame && RULES_VERSION === HELD.version, advice).toBe(true);
  });
});
