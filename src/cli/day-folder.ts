import { randomBytes } from 'node:crypto';
import { type FileHandle, mkdir, open, readdir, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';

/** A file of the folder, or what is to be added to it. */
export interface FileText {
  readonly name: string;
  readonly text: string;
}

const UNFINISHED = '.part';
/** A file that nobody has added to for so long was left by a run that was killed. */
const LEFT_AFTER_MS = 60 * 60 * 1000;

/**
 * A folder of output files that are written part by part under names of their own, and take their places together when all
 * are whole: whoever looks into it finds the files of one run, and never half of one.
 */
export class DayFolder {
  readonly #folder: string;
  readonly #mark = `.${process.pid}-${randomBytes(4).toString('hex')}${UNFINISHED}`;
  readonly #files = new Map<string, FileHandle>();

  /** @param folder - made where it is not there */
  constructor(folder: string) {
    this.#folder = folder;
  }

  /** Add to files, each begun where it was not there. */
  async add(texts: readonly FileText[]): Promise<void> {
    for (const { name, text } of texts) {
      const file = this.#files.get(name) ?? (await this.#begin(name));
      if (text !== '') await file.appendFile(text);
    }
  }

  async #begin(name: string): Promise<FileHandle> {
    if (this.#files.size === 0) {
      await mkdir(this.#folder, { recursive: true });
      await this.#sweep();
    }
    const file = await open(this.#unfinished(name), 'w');
    this.#files.set(name, file);
    return file;
  }

  /** All files are whole: put them in their places. */
  async finish(): Promise<void> {
    for (const file of this.#files.values()) {
      await file.sync();
      await file.close();
    }
    for (const name of this.#files.keys()) await rename(this.#unfinished(name), join(this.#folder, name));
    this.#files.clear();
  }

  /** Take away what was begun and not finished. */
  async discard(): Promise<void> {
    for (const [name, file] of this.#files) {
      await file.close().catch(() => undefined);
      await rm(this.#unfinished(name), { force: true });
    }
    this.#files.clear();
  }

  #unfinished(name: string): string {
    return join(this.#folder, `${name}${this.#mark}`);
  }

  async #sweep(): Promise<void> {
    for (const name of await readdir(this.#folder)) {
      if (!name.endsWith(UNFINISHED)) continue;
      const path = join(this.#folder, name);
      const { mtimeMs } = await stat(path);
      if (Date.now() - mtimeMs > LEFT_AFTER_MS) await rm(path, { force: true });
    }
  }
}
