import { execFile, execFileSync, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { beforeAll, describe, expect, it } from 'vitest';
import { buildCapture } from '../support/build-capture.js';
import { ROOT } from './run-program.js';

const BIN = join(ROOT, 'bin/coilbook.js');
const exec = promisify(execFile);

// `npm test` builds first; whoever runs this file alone gets what is built.
beforeAll(() => {
  if (existsSync(join(ROOT, 'dist/cli/index.js'))) return;
  execFileSync(process.execPath, [join(ROOT, 'node_modules/typescript/bin/tsc'), '-p', 'tsconfig.build.json'], {
    cwd: ROOT,
  });
});

describe('the program as it is installed', () => {
  it('checks the demo and ends with its status', async () => {
    const { stdout } = await exec(process.execPath, [BIN, 'check', 'fixtures/demo/captures/2026-11-20-0805-v101.dex'], {
      cwd: ROOT,
    });
    expect(stdout).toMatch(/^Sound: nothing to do\.\n/);
    await expect(exec(process.execPath, [BIN, 'check', 'gone.dex'], { cwd: ROOT })).rejects.toMatchObject({ code: 66 });
  });

  it('reads standard input', () => {
    const out = execFileSync(process.execPath, [BIN, 'check', '-', '--json'], {
      input: buildCapture(['ID1*S1*M1', 'ID4*2*978*EUR', 'CB1*B1', 'VA1*100*1']),
    });
    expect(JSON.parse(out.toString())).toMatchObject({ file: '-', verdict: 'sound' });
  });

  it('ends quietly when its reader goes away', async () => {
    const child = spawn(process.execPath, [BIN, 'explain', 'fixtures/demo/captures', '--json'], { cwd: ROOT });
    let err = '';
    child.stderr.on('data', (chunk) => {
      err += chunk;
    });
    child.stdout.once('data', () => child.stdout.destroy());
    const status = await new Promise((resolve) => child.on('close', resolve));
    expect([status, err]).toEqual([0, '']);
  });
});
