import { Readable } from 'node:stream';
import { expect, it } from 'vitest';
import { readOptions, statementShape } from '../../src/cli/option-shapes.js';
import { Progress } from '../../src/cli/progress.js';
import { takeAllReads } from '../../src/cli/take-all-reads.js';
import { loadOffice, realPaths } from '../../src/index.js';
import { writeCounters } from '../accounts/machine-days.js';
import { makeFolder, workIn } from '../io/temporary-folder.js';
import { Collector } from './run-program.js';

it('takes every read of the captures named, as of the roster, and passes over files that are none', async () => {
  const cwd = makeFolder({
    'in/a.dex': writeCounters({ asset: 'A1', at: '2026-11-16 00:05', cash: 100 }),
    'in/deep/b.dex': writeCounters({ asset: 'A2', at: '2026-11-16 00:05', cash: 100 }),
    'in/notes.txt': 'call the office\n',
    'in/machines.csv': 'machine,asset\nM1,A1\n',
    'in/deposits.csv': 'machine,date,gross\n',
  });
  const terminal = {
    stdin: Readable.from([]),
    stdout: new Collector(false),
    stderr: new Collector(false),
    env: {},
    now: () => new Date(0),
    cwd,
  };
  const office = await loadOffice({ machines: 'in/machines.csv' }, null, workIn(cwd));
  const skip = new Set([...office.sheetPaths, ...(await realPaths(['in/deposits.csv'], workIn(cwd)))]);
  const options = readOptions(statementShape, { captures: ['in'], machines: 'in/machines.csv' });
  const setting = { office, terminal, progress: new Progress(terminal), skip };
  const { reads, findings } = await takeAllReads(options, setting);
  expect(reads.map(({ file, machine }) => [file, machine?.machine ?? null])).toEqual([
    ['in/a.dex', 'M1'],
    ['in/deep/b.dex', null],
  ]);
  expect(new Set(findings.map(({ file }) => file))).toEqual(new Set(['in/notes.txt']));
});
