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
  readonly #counts: Record<Verdict, number> = { sound: 0, doubtful: 0, 'read-again': 0 };
  readonly #shown: { readonly verdict: Verdict; readonly lines: readonly string[] }[] = [];
  readonly #showsSound: boolean;
  readonly #cautions = new Set<string>();

  /** @param showsSound - whether sound captures are shown too, and not only counted */
  constructor(style: Style, showsSound: boolean) {
    this.#style = style;
    this.#showsSound = showsSound;
  }

  add(check: CaptureCheck): void {
    this.#counts[check.verdict]++;
    if (check.verdict === 'sound' && !this.#showsSound) return;
    for (const caution of cautionsFor(check.findings)) this.#cautions.add(caution);
    this.#shown.push({ verdict: check.verdict, lines: layCheck(check, this.#style) });
  }

  /** The whole report. One capture alone stands for itself; several begin with how many of them are what. */
  lay(general: readonly Finding[]): string[] {
    const { sound, doubtful, 'read-again': again } = this.#counts;
    const total = sound + doubtful + again;
    const order: readonly Verdict[] = ['read-again', 'doubtful', 'sound'];
    const blocks = order.flatMap((verdict) => this.#shown.filter((shown) => shown.verdict === verdict));
    const summary = `${plural(total, 'capture')}: ${again} to read again, ${doubtful} doubtful, ${sound} sound.`;
    const parts = [
      ...(total === 1 && blocks.length === 1 ? [] : [[this.#style.bold(summary)]]),
      ...blocks.map(({ lines }) => lines),
      ...(general.length === 0 ? [] : [layFindings(general, this.#style)]),
    ];
    return [...joinParts(parts), ...layCautions([...this.#cautions], this.#style)];
  }
}
