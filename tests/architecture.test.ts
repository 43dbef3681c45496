import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const SRC = join(ROOT, 'src');

/** Rows of the map in DEVELOPERS.md, foundation first; folders in one row are siblings and stay apart. */
const ROWS: readonly (readonly string[])[] = [
  ['findings'],
  ['model'],
  ['bytes'],
  ['dictionary'],
  ['profile'],
  ['segments'],
  ['read'],
  ['sheets'],
  ['checks', 'interval'],
  ['captures'],
  ['settlement'],
  ['attention'],
  ['accounts'],
  ['day'],
  ['explain'],
  ['report'],
  ['core.ts'],
  ['io'],
  ['book'],
  ['pages'],
  ['driver'],
  ['index.ts'],
  ['cli'],
];
/** Folders that reach files, sockets or a database; all others run in a browser. */
const NODE_FOLDERS = ['io', 'book', 'pages', 'driver', 'cli', 'index.ts'];

interface SourceFile {
  /** Path under `src`, with `/`. */
  readonly path: string;
  readonly folder: string;
  /** Files of ours it imports, under `src`. */
  readonly imports: readonly string[];
  /** Those of them that it imports more than types of. */
  readonly needs: readonly string[];
  /** Names of everything but types that it exports. */
  readonly values: readonly string[];
  readonly packages: readonly string[];
  readonly lines: number;
}

const IMPORT = /^(?:import|export)\b([^;]*?)\bfrom\s+'([^']+)'/gm;
const EXPORT = /^export (?:async )?(?:function\*?|class|const|let) (\w+)/gm;

function place(from: string, specifier: string): string {
  const path = relative(SRC, join(SRC, dirname(from), specifier)).replaceAll('\\', '/');
  const component = path.replace(/\.js$/, '.tsx');
  return existsSync(join(SRC, component)) ? component : path.replace(/\.js$/, '.ts');
}

function readSource(path: string): SourceFile {
  const text = readFileSync(join(SRC, path), 'utf8');
  const found = [...text.matchAll(IMPORT)].map(([, what, specifier]) => ({ what: what!, specifier: specifier! }));
  const own = found.filter(({ specifier }) => specifier.startsWith('.'));
  const isType = ({ what }: { what: string }): boolean => what.trimStart().startsWith('type ');
  return {
    path,
    folder: path.split('/')[0]!,
    imports: own.map(({ specifier }) => place(path, specifier)),
    needs: own.filter((each) => !isType(each)).map(({ specifier }) => place(path, specifier)),
    values: [...text.matchAll(EXPORT)].map(([, name]) => name!),
    packages: found.filter(({ specifier }) => !specifier.startsWith('.')).map(({ specifier }) => specifier),
    lines: text.split('\n').length,
  };
}

const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' })
  .map((path) => path.replaceAll('\\', '/'))
  .filter((path) => /\.tsx?$/.test(path))
  .sort()
  .map(readSource);
const byPath = new Map(files.map((file) => [file.path, file]));
const rowOf = (folder: string): number => ROWS.findIndex((row) => row.includes(folder));

/** A read makes its columns and a column reads from its read: one idea in two files, neither used while they load. */
const KNOWN_CIRCLES = ['read/read.ts -> read/column.ts -> read/read.ts'];

describe('the map of src', () => {
  it('finds files and imports at all', () => {
    expect(files.length).toBeGreaterThan(50);
    expect(byPath.get('read/read.ts')?.imports).toContain('segments/index.ts');
    expect(byPath.get('report/csv/csv.ts')?.packages).toEqual(['csv-stringify/sync']);
  });

  it('has every folder in a row', () => {
    expect(files.filter(({ folder }) => rowOf(folder) < 0).map(({ path }) => path)).toEqual([]);
  });

  it('imports from its own folder and earlier rows only', () => {
    const wrong = files.flatMap(({ path, folder, imports }) =>
      imports
        .filter((target) => {
          const other = target.split('/')[0]!;
          return other !== folder && rowOf(other) >= rowOf(folder);
        })
        .map((target) => `${path} -> ${target}`),
    );
    expect(wrong).toEqual([]);
  });

  it('imports no file that is not there', () => {
    const missing = files.flatMap(({ path, imports }) =>
      imports.filter((target) => !byPath.has(target) && !existsSync(join(SRC, target))).map((to) => `${path} -> ${to}`),
    );
    expect(missing).toEqual([]);
  });

  it('has no circle of imports', () => {
    const done = new Set<string>();
    const circles: string[] = [];
    const visit = (path: string, trail: readonly string[]): void => {
      if (done.has(path)) return;
      const at = trail.indexOf(path);
      if (at >= 0) {
        circles.push([...trail.slice(at), path].join(' -> '));
        return;
      }
      for (const target of byPath.get(path)?.needs ?? []) visit(target, [...trail, path]);
      done.add(path);
    };
    for (const { path } of files) visit(path, []);
    expect(circles.filter((circle) => !KNOWN_CIRCLES.includes(circle))).toEqual([]);
  });

  it('keeps Node out of the core', () => {
    const wrong = files
      .filter(({ folder }) => !NODE_FOLDERS.includes(folder))
      .flatMap(({ path, packages }) => packages.filter((name) => name.startsWith('node:')).map((name) => [path, name]));
    expect(wrong).toEqual([]);
  });

  it('writes CSV in one place and reads the clock nowhere in the core', () => {
    const writers = files.filter(({ packages }) => packages.some((name) => name.startsWith('csv-stringify')));
    expect(writers.map(({ path }) => path)).toEqual(['report/csv/csv.ts']);
    const clocks = files
      .filter(({ folder }) => !NODE_FOLDERS.includes(folder))
      .filter(({ path }) => /Date\.now\(|new Date\(\)/.test(readFileSync(join(SRC, path), 'utf8')));
    expect(clocks.map(({ path }) => path)).toEqual([]);
  });

  it('has no file that is too long to read', () => {
    expect(files.filter(({ lines }) => lines > 400).map(({ path, lines }) => `${path}: ${lines}`)).toEqual([]);
  });
});

describe('the rule against lists spread into calls', () => {
  const rule = '.ci/spread-into-call.grit';
  const biome = join(ROOT, 'node_modules', '@biomejs', 'biome', 'bin', 'biome');
  const folder = mkdtempSync(join(tmpdir(), 'coilbook-lint-'));
  afterAll(() => rmSync(folder, { recursive: true }));

  /** What Biome says of a source file with this text, by that rule alone. */
  const lint = (source: string): string => {
    writeFileSync(join(folder, 'biome.json'), JSON.stringify({ plugins: [join(ROOT, rule)] }));
    writeFileSync(join(folder, 'some.ts'), source);
    const { stdout, stderr } = spawnSync(process.execPath, [biome, 'lint', 'some.ts'], {
      cwd: folder,
      encoding: 'utf8',
    });
    return stdout + stderr;
  };

  it('holds for all sources', () => {
    const settings = JSON.parse(readFileSync(join(ROOT, 'biome.json'), 'utf8')) as { overrides: unknown[] };
    expect(settings.overrides).toContainEqual({ includes: ['src/**'], plugins: [`./${rule}`] });
  });

  it.each([
    'export const most = (all: number[]): number => Math.max(...all);',
    'export const take = (all: number[], more: number[]): unknown => all.push(...more.map((one) => one + 1));',
    'export const text = (codes: number[]): string => String.fromCharCode.apply(null, codes);',
  ])('refuses %s', (source) => {
    expect(lint(source)).toContain('A list of unknown length');
  });

  it('lets lists be put together', () => {
    const source = 'export const join = (a: number[], b: number[]): Set<number> => new Set([...a, ...b]);';
    expect(lint(source)).toContain('Checked 1 file');
    expect(lint(source)).not.toContain('A list of unknown length');
  });
});

/** Tables and shapes, which are tested through what looks things up in them or is made of them. */
const WITHOUT_TEST: readonly RegExp[] = [
  /(^|\/)index\.ts$/,
  /^core\.ts$/,
  /^dictionary\/(?:.*-segments|define|sources)\.ts$/,
  /^checks\/check\.ts$/,
  /(^|\/)shapes(\/|\.ts$)/,
];
/** Wiring: what it joins is tested apart, and the whole of it by running the program. */
const TESTED_BY_RUNNING = [
  'driver/page/start-page.tsx',
  ...['program', 'shared-options', 'inputs', 'settle-files', 'remembered-office', 'put-back', 'checks-view'].map(
    (name) => `cli/${name}.ts`,
  ),
];
/**
 * Folders whose inner modules are parts of one calculation, held as a whole against the truth: there it is enough that a
 * module is reached from one that has a test.
 */
const TESTED_AS_A_WHOLE: Readonly<Record<string, string>> = {
  interval: 'properties/interval-truth.property.test.ts',
  settlement: 'properties/settlement.property.test.ts',
  accounts: 'accounts/match-deposits.test.ts',
  segments: 'properties/segments.property.test.ts',
  book: 'book/store',
  pages: 'pages/machine/machine-pages.test.ts',
};

/** Every name that some test imports from a folder of `src`. */
function namesInTests(): ReadonlyMap<string, ReadonlySet<string>> {
  const names = new Map<string, Set<string>>();
  const tests = join(ROOT, 'tests');
  for (const file of readdirSync(tests, { recursive: true, encoding: 'utf8' })) {
    if (!/\.tsx?$/.test(file)) continue;
    for (const [, what, from] of readFileSync(join(tests, file), 'utf8').matchAll(IMPORT)) {
      const folder = /\/src\/([\w-]+)\//.exec(from!)?.[1];
      if (folder === undefined) continue;
      const known = names.get(folder) ?? new Set<string>();
      for (const name of what!.match(/\w+/g) ?? []) known.add(name);
      names.set(folder, known);
    }
  }
  return names;
}

describe('tests', () => {
  const named = namesInTests();
  const isExempt = ({ path, values }: SourceFile): boolean =>
    values.length === 0 || TESTED_BY_RUNNING.includes(path) || WITHOUT_TEST.some((pattern) => pattern.test(path));
  const hasTest = ({ path, folder, values }: SourceFile): boolean =>
    existsSync(join(ROOT, 'tests', path.replace(/\.(tsx?)$/, '.test.$1'))) ||
    existsSync(join(ROOT, 'tests', path.replace(/\.tsx$/, '.test.ts'))) ||
    values.some((name) => named.get(folder)?.has(name));

  it('are there for every module: one that mirrors it, or one that names what it exports', () => {
    const reached = new Set<string>();
    const reach = (path: string, folder: string): void => {
      const file = byPath.get(path);
      if (file === undefined || file.folder !== folder || reached.has(path)) return;
      reached.add(path);
      for (const target of file.needs) reach(target, folder);
    };
    for (const file of files.filter(hasTest)) if (file.folder in TESTED_AS_A_WHOLE) reach(file.path, file.folder);
    const untested = files.filter((file) => !isExempt(file) && !hasTest(file) && !reached.has(file.path));
    expect(untested.map(({ path }) => path)).toEqual([]);
  });

  it('hold whole calculations against the truth where inner modules have none of their own', () => {
    const missing = Object.values(TESTED_AS_A_WHOLE).filter((path) => !existsSync(join(ROOT, 'tests', path)));
    expect(missing).toEqual([]);
  });
});
