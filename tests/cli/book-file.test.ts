import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { makeFolder } from '../io/temporary-folder.js';
import { buildCapture } from '../support/build-capture.js';
import { runProgram } from './run-program.js';

const run = (cwd: string, ...argv: string[]) => runProgram(argv, { cwd });

describe('book file', () => {
  it('gives the file of an entry back byte for byte, whatever it was', async () => {
    const capture = Buffer.from(buildCapture(['ID1*S1*M****A1', 'VA1*100*1', 'PA1*11*100', 'PA2*1*100']));
    const files = {
      'in/a.dex': capture,
      'in/b.dex.gz': gzipSync(Buffer.concat([capture, capture])),
      'in/c.txt': 'no capture',
    };
    const cwd = makeFolder(files);
    await run(cwd, 'day', 'in', '--day', '2026-11-24');
    const given = Object.values(files).map((bytes) => createHash('sha256').update(bytes).digest('hex'));
    for (const entry of [0, 1, 2]) {
      const outcome = await run(cwd, 'book', 'file', String(entry), '--out', `${entry}.out`);
      expect([outcome.status, outcome.err]).toEqual([0, '']);
      const bytes = readFileSync(join(cwd, `${entry}.out`));
      expect(given).toContain(createHash('sha256').update(bytes).digest('hex'));
    }
  });

  it('says in one line what it cannot give', async () => {
    const cwd = makeFolder({ 'in/c.txt': 'no capture' });
    await run(cwd, 'day', 'in', '--day', '2026-11-24');
    for (const entry of ['7', 'x']) {
      const outcome = await run(cwd, 'book', 'file', entry);
      expect(outcome.status).toBe(64);
      expect(outcome.err.trim().split('\n')).toHaveLength(1);
    }
  });
});
