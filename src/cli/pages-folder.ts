import { mkdir, readFile, rename, rm, rmdir, writeFile } from 'node:fs/promises';
import { dirname, join, normalize } from 'node:path';
import { z } from 'zod';
import { markUnfinished, removeWhenStopped, sweepUnfinished } from '../io/index.js';
import type { FileText } from './day-folder.js';

const UNFINISHED = /^\.pages-[\w-]+\.part$/;
/** Its name in the folder: it lists the pages, so that those of an earlier run can be taken away. */
const LIST = 'pages.json';
const listShape = z.object({ pages: z.array(z.string()) });

/**
 * Pages are written into a folder beside where they shall be, and take their places when all are there: whoever opens one
 * finds those it leads to. Pages of an earlier run that are no longer made are taken away; nothing else is touched.
 */
export class PagesFolder {
  readonly #folder: string;
  readonly #unfinished: string;
  readonly #names: string[] = [];
  readonly #letGo: () => void;

  /** @param folder - made where it is not there */
  constructor(folder: string) {
    this.#folder = folder;
    this.#unfinished = join(folder, `.pages-${markUnfinished()}.part`);
    this.#letGo = removeWhenStopped(this.#unfinished);
  }

  /** Write whole pages. Their names are ours, with `/` between folders. */
  async put(pages: Iterable<FileText>): Promise<void> {
    for (const { name, text } of pages) {
      if (this.#names.length === 0) await this.#sweep();
      const path = join(this.#unfinished, name);
      await mkdir(dirname(path), { recursive: true });
      await writeFile(path, text);
      this.#names.push(name);
    }
  }

  /** All pages are there: put them in their places. */
  async finish(): Promise<void> {
    const before = await this.#listed();
    for (const name of this.#names) {
      const path = join(this.#folder, name);
      await mkdir(dirname(path), { recursive: true });
      await rename(join(this.#unfinished, name), path);
    }
    const now = new Set(this.#names);
    for (const name of before) if (!now.has(name)) await this.#remove(name);
    const list = JSON.stringify({ pages: this.#names });
    await writeFile(join(this.#unfinished, LIST), `${list}\n`);
    await rename(join(this.#unfinished, LIST), join(this.#folder, LIST));
    await this.discard();
  }

  /** Take away what was begun and not finished. */
  async discard(): Promise<void> {
    await rm(this.#unfinished, { recursive: true, force: true });
    this.#letGo();
  }

  /** The pages of an earlier run. A name that leads elsewhere is not ours. */
  async #listed(): Promise<readonly string[]> {
    try {
      const text = await readFile(join(this.#folder, LIST), 'utf8');
      const { pages } = listShape.parse(JSON.parse(text));
      return pages.filter(
        (name) => name.endsWith('.html') && normalize(name) === name && !/^(\/|\.\.)|\\|:/.test(name),
      );
    } catch {
      return [];
    }
  }

  async #remove(name: string): Promise<void> {
    await rm(join(this.#folder, name), { force: true });
    const folder = dirname(name);
    // It stays where something else is in it.
    if (folder !== '.') await rmdir(join(this.#folder, folder)).catch(() => undefined);
  }

  async #sweep(): Promise<void> {
    await mkdir(this.#unfinished, { recursive: true });
    sweepUnfinished(this.#folder, (name) => UNFINISHED.test(name));
  }
}
