import type { CaptureCheck, Verdict } from '../../checks/index.js';
import type { Finding } from '../../findings/index.js';
import { cautionsFor, layCautions } from './cautions-text.js';
import { layCheck } from './check-text.js';
import { layFindings } from './findings-text.js';
import type { Style } from './style.js';
import { plural } from './words.js';
import { joinParts } from './wrap-text.js';

/**
 * The checks of many files as one report: keeps the text of those that need a look, and only counts the others, so that
 * thousands of sound captures take no memory.
 */
export class ChecksReport {
  readonly #style: Style;
  readonly #showsSound: boolean;
  readonly #lines: Record<Verdict, string[][]> = { 'read-again': [], doubtful: [], sound: [] };
  readonly #cautions = new Set<string>();
  /** A sound capture that is the only one is shown all the same. */
  #first: string[] | null = null;
  #sound = 0;

  /** @param showsSound - whether sound captures are shown too, and not only counted */
  constructor(style: Style, showsSound: boolean) {
    this.#style = style;
    this.#showsSound = showsSound;
  }

  /** Take the check of one file. There is nothing to print before all are there: the first line is the answer. */
  add(check: CaptureCheck): readonly string[] {
    const isShown = check.verdict !== 'sound' || this.#showsSound;
    if (check.verdict === 'sound') this.#sound++;
    if (!isShown && this.#first !== null) return [];
    const lines = layCheck(check, this.#style);
    this.#first ??= lines;
    if (!isShown) return [];
    for (const caution of cautionsFor(check.findings)) this.#cautions.add(caution);
    this.#lines[check.verdict].push(lines);
    return [];
  }

  /** The whole report. One capture alone stands for itself; several begin with how many of them are what. */
  lay(general: readonly Finding[]): string[] {
    const { 'read-again': again, doubtful, sound } = this.#lines;
    const total = again.length + doubtful.length + this.#sound;
    const summary = `${plural(total, 'capture')}: ${again.length} to read again, ${doubtful.length} doubtful, ${this.#sound} sound.`;
    const blocks = total === 1 ? [this.#first!] : [[this.#style.bold(summary)], ...again, ...doubtful, ...sound];
    const others = general.length === 0 ? [] : [layFindings(general, this.#style)];
    return [...joinParts([...blocks, ...others]), ...layCautions([...this.#cautions], this.#style)];
  }
}
