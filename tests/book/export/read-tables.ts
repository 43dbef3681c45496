import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { parquetMetadata, parquetReadObjects } from 'hyparquet';

/** What a query gives, asked of an engine that knows nothing of this project. */
export async function askDuckDb(sql: string): Promise<Record<string, unknown>[]> {
  const instance = await DuckDBInstance.create(':memory:');
  const connection = await instance.connect();
  try {
    const reader = await connection.runAndReadAll(sql);
    return reader.getRowObjectsJson() as Record<string, unknown>[];
  } finally {
    connection.closeSync();
    instance.closeSync();
  }
}

/** A table of an export, as DuckDB finds its partitions. */
export const tableOf = (folder: string, table: string): string =>
  `read_parquet('${join(folder, table)}/*/*.parquet', hive_partitioning = true)`;

/** All files in a folder, by their paths in it. */
export function listFiles(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((each) => each.isFile())
    .map(({ parentPath, name }) => join(parentPath, name).slice(folder.length + 1))
    .sort();
}

const bufferOf = (path: string): ArrayBuffer => {
  const bytes = readFileSync(path);
  return bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length);
};

/** The rows of one file, by a reader that is no part of the writer. */
export const readRows = (path: string): Promise<Record<string, unknown>[]> =>
  parquetReadObjects({ file: bufferOf(path) });

/** What a file says of itself. */
export const readMetadata = (path: string) => parquetMetadata(bufferOf(path));
