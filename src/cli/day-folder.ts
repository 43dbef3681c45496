import { type FileHandle, mkdir, open, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { markUnfinished, removeWhenStopped, sweepUnfinished } from '../io/index.js';

/** A file of the folder, or what is to be added to it. */
export interface FileText {
  readonly name: string;
  readonly text: string;
}

const UNFINISHED = '.part';

/**
 * A folder of output files that are written part by part under names of their own, and take their places together when all
 * are whole: whoever looks into it finds the files of one run, and never half of one.
 */
export class DayFolder {
  readonly #folder: string;
  readonly #mark = `.${markUnfinished()}${UNFINISHED}`;
  readonly #files = new Map<string, FileHandle>();
  readonly #kept: (() => void)[] = [];

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
      sweepUnfinished(this.#folder, (left) => left.endsWith(UNFINISHED));
    }
    this.#kept.push(removeWhenStopped(this.#unfinished(name)));
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
    this.#letGo();
  }

  /** Take away what was begun and not finished. */
  async discard(): Promise<void> {
    for (const [name, file] of this.#files) {
      await file.close().catch(() => undefined);
      await rm(this.#unfinished(name), { force: true });
    }
    this.#letGo();
  }

  #letGo(): void {
    this.#files.clear();
    for (const keep of this.#kept.splice(0)) keep();
  }

  #unfinished(name: string): string {
    return join(this.#folder, `${name}${this.#mark}`);
  }
}
