import { join } from 'node:path';
import { expect, it } from 'vitest';
import { ExportFolder } from '../../../src/book/export/export-folder.js';
import { CASH_EXPORT_TABLE } from '../../../src/book/export/tables.js';
import type { DayCashRow } from '../../../src/day/index.js';
import { temporaryFolder } from '../store/temporary-book.js';
import { listFiles, readRows } from './read-tables.js';

const row = { machine: 'V1', flags: [] } as unknown as DayCashRow;
const whole = new Proxy(row, { get: (target, key) => Reflect.get(target, key) ?? null });

it('shows nothing before it is finished, and leaves nothing behind that is not', async () => {
  const folder = temporaryFolder();
  const target = new ExportFolder(folder, { from: null, to: null });
  await target.add(CASH_EXPORT_TABLE, '2026-11-24', [whole]);
  await target.add(CASH_EXPORT_TABLE, '2026-11-25', []);
  expect(listFiles(folder).every((file) => file.startsWith('.unfinished-'))).toBe(true);
  target.closeDays();
  await expect(target.add(CASH_EXPORT_TABLE, '2026-11-24', [whole])).rejects.toThrow('is written already');
  expect(target.finish()).toEqual(new Map([['cash', 1]]));
  target.cleanUp();
  const files = listFiles(folder);
  expect(files).toEqual([join('cash', 'day=2026-11-24', 'part-0.parquet')]);
  expect(await readRows(join(folder, files[0]!))).toMatchObject([{ machine: 'V1', value: null, flags: '' }]);
});

it('can be given up at any time', async () => {
  const folder = temporaryFolder();
  const target = new ExportFolder(folder, { from: null, to: null });
  await target.add(CASH_EXPORT_TABLE, null, [whole]);
  target.cleanUp();
  target.cleanUp();
  expect(listFiles(folder)).toEqual([]);
});
