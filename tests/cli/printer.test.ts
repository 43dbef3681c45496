import { describe, expect, it } from 'vitest';
import { collected, csvView, type Format, Printer, styleFor, type View } from '../../src/cli/printer.js';
import { Progress } from '../../src/cli/progress.js';
import { makeFinding } from '../../src/findings/index.js';
import { Collector } from './run-program.js';

const VIEW: View<number> = {
  toJson: (item) => ({ item }),
  csv: csvView({ columns: [['item', (item: number) => item]] }, (item: number) => [item]),
  text: () => collected((items, general) => [`${items.length} items`, ...general.map(({ message }) => message)]),
};
const GENERAL = [makeFinding('bad-row', 'Row 3 is bad.')];

async function print(format: Format, items: readonly number[], general = GENERAL) {
  const [stdout, stderr] = [new Collector(false), new Collector(false)];
  const terminal = { stdin: process.stdin, stdout, stderr, env: {}, now: () => new Date(0), cwd: '/' };
  const printer = new Printer(VIEW, { format, general, terminal, progress: new Progress(terminal) });
  for (const item of items) await printer.add(item);
  await printer.end();
  return { out: stdout.text, err: stderr.text };
}

describe('Printer', () => {
  it('prints JSON as it comes, with what belongs to no item on the first', async () => {
    const { out, err } = await print('json', [1, 2]);
    const [first, second, ...others] = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect([first.item, first.general[0].code, second, others, err]).toEqual([1, 'bad-row', { item: 2 }, [], '']);
    expect(JSON.parse((await print('json', [])).out)).toMatchObject({ general: [{ code: 'bad-row' }] });
    expect((await print('json', [], [])).out).toBe('');
  });

  it('prints one head over all rows, and says beside the table what belongs to none', async () => {
    expect((await print('csv', [1, 2], [])).out).toBe('item\r\n1\r\n2\r\n');
    expect(await print('csv', [])).toMatchObject({ out: 'item\r\n', err: expect.stringContaining('Row 3 is bad.') });
  });

  it('prints text when all is there, since its first line is the answer', async () => {
    expect((await print('text', [1, 2])).out).toBe('2 items\nRow 3 is bad.\n');
  });
});

describe('styleFor', () => {
  it('is plain unless a person looks at a terminal that may show weights', () => {
    const isStyled = (isTTY: boolean, env: Record<string, string>) => {
      const stdout = new Collector(isTTY);
      return (
        styleFor({ stdin: process.stdin, stdout, stderr: stdout, env, now: () => new Date(0), cwd: '/' }).bold('x') !==
        'x'
      );
    };
    expect([isStyled(true, {}), isStyled(false, {}), isStyled(true, { NO_COLOR: '1' })]).toEqual([true, false, false]);
  });
});
