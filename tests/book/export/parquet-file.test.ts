import { openSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { ParquetFile } from '../../../src/book/export/parquet-file.js';
import type { ParquetTable } from '../../../src/book/export/parquet-table.js';
import { temporaryFolder } from '../store/temporary-book.js';
import { askDuckDb, readMetadata, readRows } from './read-tables.js';

const TABLE: ParquetTable<number> = {
  name: 'numbers',
  columns: [
    { name: 'n', type: 'integer', of: (n) => n },
    { name: 'half', type: 'integer', of: (n) => (n % 2 === 0 ? n / 2 : null) },
    { name: 'text', type: 'text', of: (n) => `${n} \u00e9 \u001b[2J` },
  ],
};
const numbers = (from: number, count: number): number[] => Array.from({ length: count }, (_, i) => from + i);

describe('ParquetFile', () => {
  it('writes rows in groups, so that few are held, and all of them are there', async () => {
    const path = join(temporaryFolder(), 'a.parquet');
    const file = await ParquetFile.create(path, TABLE, 100);
    for (let from = 0; from < 1050; from += 70) file.add(numbers(from, 70));
    file.end();
    expect(file.count).toBe(1050);
    expect(readMetadata(path).row_groups.map(({ num_rows }) => Number(num_rows))).toEqual([...Array(10).fill(100), 50]);
    const rows = await readRows(path);
    expect(rows).toEqual(
      numbers(0, 1050).map((n) => ({
        n: BigInt(n),
        half: n % 2 === 0 ? BigInt(n / 2) : null,
        text: `${n} é \u001b[2J`,
      })),
    );
    const [sums] = await askDuckDb(`SELECT sum(n)::INT AS n, count(half)::INT AS half FROM '${path}'`);
    expect(sums).toEqual({ n: (1050 * 1049) / 2, half: 525 });
  });

  it('takes a file without rows too', async () => {
    const path = join(temporaryFolder(), 'a.parquet');
    (await ParquetFile.create(path, TABLE)).end();
    expect(await readRows(path)).toEqual([]);
    expect(readFileSync(path).subarray(-4).toString()).toBe('PAR1');
  });

  it('never writes over a file', async () => {
    const path = join(temporaryFolder(), 'a.parquet');
    const file = await ParquetFile.create(path, TABLE);
    await expect(ParquetFile.create(path, TABLE)).rejects.toMatchObject({ code: 'EEXIST' });
    file.abandon();
    await expect(ParquetFile.create(join(path, 'b'), TABLE)).rejects.toMatchObject({ code: 'ENOTDIR' });
  });

  it.skipIf(process.platform !== 'linux')('tells when the disk is full', async () => {
    // The device of Linux that is always full, in place of a file.
    const file = await ParquetFile.create('/dev/full', TABLE, 10, (path) => openSync(path, 'w'));
    expect(() => file.add(numbers(0, 10))).toThrow(/ENOSPC/);
    file.abandon();
  });
});
