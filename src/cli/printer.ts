import {
  type CsvTable,
  type Finding,
  generalToJson,
  layFindings,
  PLAIN_STYLE,
  type Style,
  TERMINAL_STYLE,
  writeCsvHead,
  writeCsvRows,
  writeJson,
} from '../index.js';
import { Output } from './output.js';
import type { Progress } from './progress.js';
import type { Terminal } from './terminal.js';

/** In which form results are printed. */
export type Format = 'text' | 'json' | 'csv';

/** A text report that is made of items one by one. */
export interface TextReport<Item> {
  /** Take an item. Lines it returns are printed at once. */
  readonly add: (item: Item) => readonly string[];
  readonly lay: (general: readonly Finding[]) => readonly string[];
}

/** How items of one kind are printed in each form. */
export interface View<Item> {
  readonly toJson: (item: Item) => object;
  /** Null where a table makes no sense. */
  readonly csv: CsvView<Item> | null;
  readonly text: (style: Style) => TextReport<Item>;
}

/** The table of items, and the lines of one. */
export interface CsvView<Item> {
  readonly head: string;
  readonly lines: (item: Item) => string;
}

/** A table whose rows come from items. */
export function csvView<Item, Row>(table: CsvTable<Row>, rowsOf: (item: Item) => readonly Row[]): CsvView<Item> {
  return { head: writeCsvHead(table), lines: (item) => writeCsvRows(table, rowsOf(item)) };
}

/** A text report that needs all items at once. */
export function collected<Item>(
  lay: (items: readonly Item[], general: readonly Finding[]) => readonly string[],
): TextReport<Item> {
  const items: Item[] = [];
  const add = (item: Item): readonly string[] => {
    items.push(item);
    return [];
  };
  return { add, lay: (general) => lay(items, general) };
}

/** The style for a stream: plain unless a person looks at it in a terminal and has not asked for no colours. */
export function styleFor({ stdout, env }: Terminal): Style {
  const isAskedPlain = env.NO_COLOR !== undefined && env.NO_COLOR !== '';
  return stdout.isTTY === true && !isAskedPlain && env.TERM !== 'dumb' ? TERMINAL_STYLE : PLAIN_STYLE;
}

/** Prints items as they come: JSON and CSV at once, text when all are there, since its first line is the answer. */
export class Printer<Item> {
  readonly #view: View<Item>;
  readonly #format: Format;
  readonly #terminal: Terminal;
  readonly #progress: Progress;
  readonly #output: Output;
  readonly #text: TextReport<Item>;
  #general: readonly Finding[];
  #isFirst = true;

  /** @param general - findings that belong to no item */
  constructor(view: View<Item>, { format, general, terminal, progress }: PrinterSetting) {
    this.#view = view;
    this.#format = format;
    this.#general = general;
    this.#terminal = terminal;
    this.#progress = progress;
    this.#output = new Output(terminal.stdout);
    this.#text = view.text(styleFor(terminal));
  }

  async add(item: Item): Promise<void> {
    if (this.#format === 'text') await this.#writeLines(this.#text.add(item));
    else if (this.#format === 'csv') await this.#writeCsv(this.#view.csv!, item);
    else {
      const general = this.#isFirst ? generalToJson(this.#general) : {};
      await this.#write(`${writeJson({ ...this.#view.toJson(item), ...general })}\n`);
    }
    this.#isFirst = false;
  }

  /** All items are there. */
  async end(): Promise<void> {
    if (this.#format === 'text') await this.#writeLines(this.#text.lay(this.#general));
    else if (this.#format === 'csv') await this.#endCsv();
    else if (this.#isFirst && this.#general.length > 0)
      await this.#write(`${writeJson(generalToJson(this.#general))}\n`);
    this.#progress.clear();
    await this.#output.flush();
  }

  async #writeCsv({ head, lines }: CsvView<Item>, item: Item): Promise<void> {
    await this.#write((this.#isFirst ? head : '') + lines(item));
  }

  /** A table holds nothing but its rows, so what belongs to none of them is said beside it. */
  async #endCsv(): Promise<void> {
    if (this.#isFirst) await this.#write(this.#view.csv!.head);
    if (this.#general.length === 0) return;
    this.#progress.clear();
    this.#terminal.stderr.write(`${layFindings(this.#general, PLAIN_STYLE).join('\n')}\n`);
  }

  async #writeLines(lines: readonly string[]): Promise<void> {
    if (lines.length > 0) await this.#write(`${lines.join('\n')}\n`);
  }

  async #write(text: string): Promise<void> {
    this.#progress.clear();
    await this.#output.write(text);
  }
}

/** What a {@link Printer} needs besides its view. */
export interface PrinterSetting {
  readonly format: Format;
  readonly general: readonly Finding[];
  readonly terminal: Terminal;
  readonly progress: Progress;
}
