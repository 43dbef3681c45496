import type { CaptureCheck, Verdict } from '../../checks/index.js';
import { type CautionName, cautionsOf, type Finding } from '../../findings/index.js';
import { layCautions } from './cautions-text.js';
import { layCheck } from './check-text.js';
import { layFindings } from './findings-text.js';
import type { Style } from './style.js';
import { plural } from './words.js';
import { joinParts } from './wrap-text.js';

/** Worst first. */
const ORDER: readonly Verdict[] = ['read-again', 'doubtful', 'sound'];

interface Block {
  readonly verdict: Verdict;
  readonly lines: readonly string[];
}

/**
 * The checks of many files as one report: keeps the text of those that need a look, and only counts the others, so that
 * thousands of sound captures take no memory.
 */
export class ChecksReport {
  readonly #style: Style;
  readonly #showsSound: boolean;
  readonly #blocks: Block[] = [];
  readonly #counts: Record<Verdict, number> = { 'read-again': 0, doubtful: 0, sound: 0 };
  readonly #cautions = new Set<CautionName>();
  /** A sound capture that is the only one is shown all the same. */
  #first: string[] | null = null;
  #last: { readonly file: string; verdict: Verdict } | null = null;

  /** @param showsSound - whether sound captures are shown too, and not only counted */
  constructor(style: Style, showsSound: boolean) {
    this.#style = style;
    this.#showsSound = showsSound;
  }

  /**
   * Take the check of one file, or of a part of it. There is nothing to print before all are there: the first line is the
   * answer.
   */
  add(check: CaptureCheck & { readonly firstRead?: number }): readonly string[] {
    this.#count(check);
    const isShown = check.verdict !== 'sound' || this.#showsSound;
    if (!isShown && this.#first !== null) return [];
    const lines = layCheck(check, this.#style);
    this.#first ??= lines;
    if (!isShown) return [];
    for (const caution of cautionsOf(check.findings)) this.#cautions.add(caution);
    this.#blocks.push({ verdict: check.verdict, lines });
    return [];
  }

  /** A file counts once, with the worst of its parts. */
  #count({ file, verdict, firstRead = 0 }: CaptureCheck & { readonly firstRead?: number }): void {
    const last = this.#last;
    if (firstRead === 0 || last === null || last.file !== file) {
      this.#last = { file, verdict };
      this.#counts[verdict]++;
    } else if (ORDER.indexOf(verdict) < ORDER.indexOf(last.verdict)) {
      this.#counts[last.verdict]--;
      this.#counts[verdict]++;
      last.verdict = verdict;
    }
  }

  /** The whole report. One capture alone stands for itself; several begin with how many of them are what. */
  lay(general: readonly Finding[]): string[] {
    const { 'read-again': again, doubtful, sound } = this.#counts;
    const total = again + doubtful + sound;
    const summary = `${plural(total, 'capture')}: ${again} to read again, ${doubtful} doubtful, ${sound} sound.`;
    const shown = ORDER.flatMap((verdict) => this.#blocks.filter((block) => block.verdict === verdict));
    const isAlone = total === 1 && shown.length <= 1;
    const blocks = isAlone ? [this.#first!] : [[this.#style.bold(summary)], ...shown.map(({ lines }) => lines)];
    const others = general.length === 0 ? [] : [layFindings(general, this.#style)];
    return [
      ...joinParts([...blocks, ...others]),
      ...layCautions([...this.#cautions, ...cautionsOf(general)], this.#style),
    ];
  }
}
