import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';
import { runProgram } from '../cli/run-program.js';
import { makeFolder } from '../io/temporary-folder.js';
import { buildCapture, joinCaptures } from '../support/build-capture.js';
import { choose, type GivenFile, openCheck, saveJson } from './support/check-html.js';
import { DEMO_CAPTURES, DEMO_SHEETS, demoCapture } from './support/demo-set.js';
import { HOSTILE_FILES } from './support/hostile-files.js';
import { describeInBrowser } from './support/launch.js';

const SHEET_OPTIONS = ['--machines', 'machines.csv', '--plan', 'plan.csv', '--captures-list', 'captures.csv'];

/** What the page saves of these files, and what the command prints of them, all in one folder. */
async function bothFor(
  files: readonly GivenFile[],
  options: readonly string[],
): Promise<{ page: string; command: string }> {
  const { page, problems } = await openCheck();
  await choose(page, files);
  const saved = await saveJson(page);
  expect(problems).toEqual([]);
  const folder = makeFolder(Object.fromEntries(files.map(({ name, content }) => [name, content])));
  const captures = files.map(({ name }) => name).filter((name) => !name.endsWith('.csv'));
  // The order in which the command takes a folder, which here holds the sheets too.
  captures.sort((a, b) => (a < b ? -1 : 1));
  const { out } = await runProgram(['check', ...captures, ...options, '--json'], { cwd: folder });
  return { page: saved, command: out };
}

describeInBrowser('the JSON of the driver’s check', () => {
  it('is what the command prints of all captures of the demo, with the sheets and without', async () => {
    const captures = DEMO_CAPTURES.map(demoCapture);
    const plain = await bothFor(captures, []);
    expect(plain.page.split('\n')).toHaveLength(DEMO_CAPTURES.length + 1);
    expect(plain.page).toBe(plain.command);
    const known = await bothFor([...captures, ...DEMO_SHEETS], SHEET_OPTIONS);
    expect(known.page).toContain('price-off-plan');
    expect(known.page).toBe(known.command);
    expect(known.page).not.toBe(plain.page);
  });

  it('is what the command prints of files that are harmed, hostile or no captures', async () => {
    const good = buildCapture(['ID1*S1*M1****A1', 'ID4*2*978*EUR', 'CB1*B1', 'VA1*100*1']);
    const harmed: GivenFile[] = [
      { name: 'empty.dex', content: '' },
      { name: 'text.dex', content: 'Dear Sir or Madam' },
      { name: 'zeros.bin', content: new Uint8Array(2000) },
      { name: 'joined.dex', content: joinCaptures(good, good, good.slice(0, 60)) },
      { name: 'mailed.dex', content: buildCapture(['ID1*S2*M1', 'VA1*100*1'], { eol: '\n' }) },
      { name: 'swapped.dex', content: buildCapture(['ID1*S3*M1', 'VA1*100*1'], { crc: 'swapped' }) },
      ...Array.from({ length: 20 }, (_, i) => ({
        name: `cut-${String(i).padStart(2, '0')}.dex`,
        content: good.slice(0, 8 * i),
      })),
      ...HOSTILE_FILES,
    ];
    const both = await bothFor(harmed, []);
    expect(both.page).toBe(both.command);
  });

  it('says of wrong sheets what the command says', async () => {
    const sheets: GivenFile[] = [
      {
        name: 'machines.csv',
        content:
          'machine;asset;serial;currency;decimals;has_cash;active;commission_percent;extra\r\nM1;A1;;EUR;2;yes;maybe;12,5;x\r\n' +
          'M1;A2;S2;XXQ;9;no;1;101;\r\n;A3;;EUR;;;;;\r\nM4;1,2E+10;S1;usd;-1;;;0,5;=1+1\r\nM5;A1;S1;JPY;0;;;;\r\n"M6;A9',
      },
      {
        name: 'plan.csv',
        content:
          'machine,column,product,price,par,from\nM1,11,Tea,1.10,5,2026-01-01\nM1,11,Tea,abc,5,2026-01-01\nM9,12,,"1,234.5",x,01/02/2026\n' +
          'M5,1,Tea,1.5,-3,\nM1,12,Tea,-1,2.5,2026-13-01\nM1,13,Tea,,,2026-02-03 10:00',
      },
      {
        name: 'captures.csv',
        content:
          'file\treceived_at\treason\tsignal\tfilled\na.dex\t2026-11-20 08:05\tservice\t32\tyes\na.dex\t\t\t\t\nb.dex\tyesterday\tfun\t0\tperhaps\n' +
          'b.dex\t2026-11-20\ton-demand\t3.5\t1',
      },
    ];
    const capture = {
      name: 'a.dex',
      content: buildCapture(['ID1*S1*M1****A1', 'PA1*11*120', 'PA2*1*120', 'VA1*120*1']),
    };
    const both = await bothFor([capture, ...sheets], SHEET_OPTIONS);
    const [first] = both.page.split('\n').map((line) => JSON.parse(line || '{}') as { general?: unknown[] });
    expect(first?.general?.length).toBeGreaterThan(15);
    expect(both.page).toBe(both.command);
  });

  it('differs only in what is packed, which the command does not unpack', async () => {
    const { page } = await openCheck();
    await choose(page, [{ name: 'x.dex', content: gzipSync(demoCapture(DEMO_CAPTURES[0]!).content) }]);
    const folder = makeFolder({ 'x.dex': demoCapture(DEMO_CAPTURES[0]!).content });
    const { out } = await runProgram(['check', 'x.dex', '--json'], { cwd: folder });
    expect(await saveJson(page)).toBe(out);
  });
});
