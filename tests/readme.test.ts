import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { FINDING_CODES } from '../src/findings/index.js';
import { runProgram } from './cli/run-program.js';

const README = new URL('../README.md', import.meta.url);
const DEMO = fileURLToPath(new URL('../fixtures/demo/', import.meta.url));
const EXAMPLE = /```text\n\$ coilbook ([^\n]*)\n(?:[^`]*)```/g;
const CODES = /<!-- codes -->\n(?:[\s\S]*?<!-- \/codes -->\n)?/;

/** What a command prints for a user who typed it in the demo's folder. */
async function printedBy(line: string): Promise<string> {
  const { out, err } = await runProgram(line.split(' '), { cwd: DEMO, env: { NO_COLOR: '1' } });
  return (err + out).trimEnd();
}

function tableOfCodes(): string {
  const rows = Object.entries(FINDING_CODES).map(
    ([code, { severity, title }]) => `| \`${code}\` | ${severity} | ${title} |`,
  );
  return [
    '<!-- codes -->',
    '',
    '| code | weight | what it says |',
    '|---|---|---|',
    ...rows,
    '',
    '<!-- /codes -->',
    '',
  ].join('\n');
}

/** The README as it must be: every example with what the command really prints, every code in the table. */
async function expectedReadme(readme: string): Promise<string> {
  let text = readme.replace(CODES, () => tableOfCodes());
  for (const [example, line] of readme.matchAll(EXAMPLE)) {
    const block = `\`\`\`text\n$ coilbook ${line}\n\n${await printedBy(line!)}\n\`\`\``;
    text = text.replace(example, () => block);
  }
  return text;
}

it('shows what the commands really print, and every code there is (COILBOOK_WRITE_README=1 rewrites it)', async () => {
  const readme = readFileSync(README, 'utf8');
  const expected = await expectedReadme(readme);
  if (process.env.COILBOOK_WRITE_README === '1') writeFileSync(README, expected);
  else expect(readme).toBe(expected);
});
