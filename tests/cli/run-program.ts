import { Readable, Writable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { parse } from 'csv-parse/sync';
import { expect } from 'vitest';
import { run } from '../../src/cli/index.js';
import { makeSchema, type SchemaName } from '../../src/index.js';
import { textWidth } from '../../src/report/text/text-width.js';

/** The project's folder, from which fixtures are named as a user would. */
export const ROOT = fileURLToPath(new URL('../..', import.meta.url));
export const SHEETS = [
  '--machines',
  'fixtures/demo/machines.csv',
  '--plan',
  'fixtures/demo/plan.csv',
  '--captures-list',
  'fixtures/demo/captures.csv',
];

/** What a run of the program is given besides its arguments. */
export interface Surroundings {
  readonly cwd?: string;
  readonly stdin?: Uint8Array | string;
  /** Whether a person looks at both outputs in a terminal. */
  readonly isTTY?: boolean;
  readonly env?: Record<string, string>;
  /** Milliseconds that pass from one look at the clock to the next. */
  readonly tick?: number;
}

/** What came of a run. */
export interface Outcome {
  readonly status: number;
  readonly out: string;
  readonly err: string;
  readonly lines: readonly string[];
}

/** A stream that keeps what is written to it. */
export class Collector extends Writable {
  readonly isTTY: boolean;
  text = '';

  constructor(isTTY: boolean) {
    super();
    this.isTTY = isTTY;
  }

  override _write(chunk: Buffer, _encoding: string, done: (error?: Error) => void): void {
    this.text += chunk.toString();
    done();
  }
}

/** Run the program in this process, as a user would from the command line. */
export async function runProgram(argv: readonly string[], around: Surroundings = {}): Promise<Outcome> {
  const { cwd = ROOT, stdin = '', isTTY = false, env = {}, tick = 0 } = around;
  const stdout = new Collector(isTTY);
  const stderr = new Collector(isTTY);
  let time = 0;
  const now = (): Date => {
    time += tick;
    return new Date(time);
  };
  const status = await run(argv, { stdin: Readable.from([Buffer.from(stdin)]), stdout, stderr, env, now, cwd });
  return { status, out: stdout.text, err: stderr.text, lines: stdout.text.split('\n').slice(0, -1) };
}

/** The JSON objects a run printed, each held against its schema. */
export function jsonOf<T>({ lines }: Outcome, schema: SchemaName): T[] {
  const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(makeSchema(schema));
  return lines.map((line) => {
    const value: unknown = JSON.parse(line);
    expect(validate(value) ? null : [validate.errors, line.slice(0, 300)]).toBeNull();
    return value as T;
  });
}

/** The rows of a table a run printed, read back by another reader. */
export function csvOf({ out }: Outcome): Record<string, string>[] {
  return parse(out, { columns: true });
}

/** Whether a text report can be read in a terminal of 80 columns, and holds nothing that steers one. */
export function expectReadable({ lines }: Outcome): void {
  expect(lines.length).toBeGreaterThan(0);
  for (const line of lines) {
    expect([line, textWidth(line) <= 80]).toEqual([line, true]);
    expect(line).not.toMatch(/[\u0000-\u001f\u007f-\u009f]/);
  }
}
