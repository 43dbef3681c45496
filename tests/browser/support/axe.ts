import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const SOURCE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface AxeResults {
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly target: readonly string[]; readonly failureSummary?: string }[];
  }[];
}

/**
 * What axe-core finds against a page as it stands now, by all its rules (WCAG A and AA, and good practice): one line each,
 * none when it finds nothing. The page's own policy stays in force.
 */
export async function findViolations(page: Page): Promise<string[]> {
  await page.evaluate(SOURCE);
  const { violations } = await page.evaluate<AxeResults>('axe.run(document, { resultTypes: ["violations"] })');
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(
      ({ target, failureSummary = '' }) => `${id} at ${target.join(' ')}: ${failureSummary.replace(/\s+/g, ' ')}`,
    ),
  );
}
