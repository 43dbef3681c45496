import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { BOOK_SHAPES, type BookSchemaName, makeBookSchema } from '../../src/book/index.js';
import { makeSchema, type SchemaName, SHAPES } from '../../src/report/index.js';

const FOLDER = fileURLToPath(new URL('../../schemas', import.meta.url));
const NAMES = [...(Object.keys(SHAPES) as SchemaName[]), ...(Object.keys(BOOK_SHAPES) as BookSchemaName[])];
const isOfBook = (name: SchemaName | BookSchemaName): name is BookSchemaName => name in BOOK_SHAPES;
const schemaOf = (name: SchemaName | BookSchemaName) => (isOfBook(name) ? makeBookSchema(name) : makeSchema(name));
const write = (name: SchemaName | BookSchemaName): string => `${JSON.stringify(schemaOf(name), null, 2)}\n`;

// The switch only writes: the tests below run on what is on disk.
if (process.env.COILBOOK_WRITE_SCHEMAS === '1') {
  mkdirSync(FOLDER, { recursive: true });
  for (const name of NAMES) writeFileSync(`${FOLDER}/${name}.schema.json`, write(name));
}

describe('schemas', () => {
  it.each(NAMES)('%s is what the code itself uses', (name) => {
    expect(readFileSync(`${FOLDER}/${name}.schema.json`, 'utf8')).toBe(write(name));
  });

  it('has a file for every shape there is', () => {
    const files = readdirSync(FOLDER);
    expect(NAMES.filter((name) => !files.includes(`${name}.schema.json`))).toEqual([]);
  });

  it.each(NAMES)('%s is a JSON Schema that takes nothing but what it names', (name) => {
    const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(schemaOf(name));
    expect(validate({})).toBe(false);
    expect(validate({ surprise: true })).toBe(false);
  });
});
