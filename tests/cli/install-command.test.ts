import { describe, expect, it } from 'vitest';
import type { InstallJson } from '../../src/report/index.js';
import { makeFolder } from '../io/temporary-folder.js';
import { buildCapture } from '../support/build-capture.js';
import { csvOf, expectReadable, jsonOf, runProgram } from './run-program.js';

const SHEETS = {
  'm.csv': 'machine,asset,currency,has_cash,has_bills,has_card\nM1,A1,EUR,yes,yes,yes\n',
  'p.csv': 'machine,column,product,price\nM1,11,Oat bar,1.00\nM1,12,Toffee,1.20\n',
  'list.csv': 'file,received_at,reason\nfirst.dex,2026-11-24 10:16,service\nsecond.dex,2026-11-24 10:20,on demand\n',
};
/** A machine with two columns: price of the second, and test vends of each; counters cleared by the read before. */
function capture(time: string, tests: readonly [number, number], options: { card?: boolean; price?: number } = {}) {
  const { card = true, price = 120 } = options;
  const total = tests[0] + tests[1];
  return buildCapture([
    'ID1*S1*MODEL****A1',
    'ID4*2*978*EUR',
    `ID5*261124*${time}`,
    'CB1*B1*BOARD',
    'CA1*C1*COIN',
    'BA1*V1*BILL',
    ...(card ? ['DA1*R1*CARD'] : []),
    'VA1*1000*10*0*0',
    'CA2*1000*10*0*0',
    'CA3*0*0*0*0*1000*1000*0*0',
    'DA2*0*0*0*0',
    `VA2*${total * 100}*${total}*${total * 100}*${total}`,
    'PA1*11*100*Oat bar',
    'PA2*5*500*0*0',
    `PA3*${tests[0]}*0*${tests[0]}*0`,
    `PA1*12*${price}*Toffee`,
    'PA2*5*500*0*0',
    `PA3*${tests[1]}*0*${tests[1]}*0`,
  ]);
}
const ARGS = ['--machines', 'm.csv', '--plan', 'p.csv', '--captures-list', 'list.csv'];
const install = async (first: Uint8Array, second: Uint8Array | null, ...argv: string[]) => {
  const folder = makeFolder({ ...SHEETS, 'first.dex': first, ...(second === null ? {} : { 'second.dex': second }) });
  const more = second === null ? [] : ['--second', 'second.dex'];
  return runProgram(['check', '--install', 'first.dex', ...more, ...ARGS, ...argv], { cwd: folder });
};
const missing = ({ items }: InstallJson) => items.filter(({ state }) => state === 'missing').map(({ id }) => id);

describe('check --install', () => {
  it('passes a machine on which everything reports', async () => {
    const outcome = await install(capture('1015', [1, 0]), null, '--json');
    const [check] = jsonOf<InstallJson>(outcome, 'install');
    expect(check).toMatchObject({ file: 'first.dex', second: null, passed: true });
    expect([outcome.status, outcome.err, missing(check!)]).toEqual([0, '', []]);
  });

  it('says what is missing, and what to do about it', async () => {
    const outcome = await install(capture('0815', [0, 0], { card: false, price: 110 }), null, '--json');
    const [check] = jsonOf<InstallJson>(outcome, 'install');
    expect(missing(check!)).toEqual(['card-reader', 'clock', 'prices']);
    expect(outcome.status).toBe(2);
    const text = await install(capture('0815', [0, 0], { card: false, price: 110 }), null);
    expectReadable(text);
    expect(text.lines[0]).toMatch(/^Installation not passed: the card reader does not report/);
    expect(text.out).toMatch(/\n {2}missing +the card reader does not report \(.*\)\n +Do: Look whether/);
    expect(text.out.split('Never rock or tilt').length).toBe(2);
    expect(text.out.indexOf('  missing')).toBeLessThan(text.out.indexOf('  pass'));
  });

  it('holds a second capture to just one vend', async () => {
    const first = capture('1015', [0, 0]);
    const check = async (second: Uint8Array, ...argv: string[]) =>
      jsonOf<InstallJson>(await install(first, second, '--json', ...argv), 'install')[0]!;
    expect(missing(await check(capture('1019', [1, 0])))).not.toContain('vend-counted');
    expect(missing(await check(capture('1019', [1, 0]), '--column', '11'))).not.toContain('vend-counted');
    expect(missing(await check(capture('1019', [1, 0]), '--column', '12'))).toContain('vend-counted');
    expect(missing(await check(capture('1019', [1, 1])))).toContain('vend-counted');
    expect(missing(await check(capture('1019', [0, 0])))).toContain('vend-counted');
  });

  it('has one row a point as a table', async () => {
    const rows = csvOf(await install(capture('1015', [1, 0]), null, '--csv'));
    expect(rows.find(({ point }) => point === 'coin-mechanism')).toMatchObject({ state: 'pass', file: 'first.dex' });
  });

  it('is open, status 1, where something could not be judged; that is a fault when strict', async () => {
    const folder = makeFolder({ 'first.dex': capture('1015', [1, 0]) });
    const statusOf = async (...argv: string[]) =>
      (await runProgram(['check', '--install', 'first.dex', ...argv], { cwd: folder })).status;
    expect(await statusOf()).toBe(1);
    expect(await statusOf('--strict')).toBe(2);
  });

  it('takes a capture that can not be read for what it is', async () => {
    const outcome = await install(buildCapture([]), null);
    expect(outcome.status).toBe(2);
    const gone = await runProgram(['check', '--install', 'gone.dex']);
    expect([gone.status, gone.lines[0]]).toEqual([
      66,
      'Read again: check the name and that you may read it; everything else was read.',
    ]);
    const folder = makeFolder({ 'a.dex': capture('1015', [1, 0]), 'b.dex': '' });
    const second = await runProgram(['check', '--install', 'a.dex', '--second', 'b.dex'], { cwd: folder });
    expect(second.out).toContain('The file is empty');
    expect(second.status).toBe(2);
  });

  it('is refused in one line where it makes no sense', async () => {
    expect(await runProgram(['check', '--install', 'a.dex', 'b.dex'])).toMatchObject({
      status: 64,
      err: 'coilbook: --install takes one capture; name the one after the vend by --second\n',
    });
    expect(await runProgram(['check', 'a.dex', '--second', 'b.dex'])).toMatchObject({
      status: 64,
      err: 'coilbook: --second, --column and --service need --install\n',
    });
  });
});
