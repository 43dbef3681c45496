import { CABINET_CAUTIONS, CAUTIONS } from '../../checks/index.js';
import type { Finding, FindingCode } from '../../findings/index.js';
import type { Style } from './style.js';
import { hangText } from './wrap-text.js';

const ALL: readonly string[] = Object.values(CAUTIONS);
/** Advice with these codes sends a hand into a cabinet, whether or not it says the cautions itself. */
const AT_CABINET: ReadonlySet<FindingCode> = new Set([
  'price-off-plan',
  'clock-wrong',
  'clock-jump',
  'device-missing',
  'event-active',
  'counter-backward',
]);
const OF_COUNTS: ReadonlySet<FindingCode> = new Set(['over', 'short', 'kinds-differ']);

/** An advice without the cautions it carries: a report shows those once, at its end. */
export function dropCautions(advice: string): string {
  return ALL.reduce((text, caution) => text.replace(` ${caution}`, ''), advice);
}

/** The cautions that the advice of these findings calls for, each once, in the order they are listed. */
export function cautionsFor(findings: readonly Finding[]): readonly string[] {
  const needed = new Set<string>();
  for (const { code, advice } of findings) {
    if (OF_COUNTS.has(code)) needed.add(CAUTIONS.overShort).add(CAUTIONS.accounts);
    if (advice === undefined) continue;
    for (const caution of cautionsIn([advice])) needed.add(caution);
    if (AT_CABINET.has(code)) for (const caution of CABINET_CAUTIONS) needed.add(caution);
  }
  return ALL.filter((caution) => needed.has(caution));
}

/** The cautions that advice carries, each once, in the order they are listed. */
export function cautionsIn(advice: readonly string[]): readonly string[] {
  return ALL.filter((caution) => advice.some((text) => text.includes(caution)));
}

/** Cautions as the end of a report. */
export function layCautions(cautions: readonly string[], style: Style): string[] {
  if (cautions.length === 0) return [];
  return ['', style.bold('Cautions'), ...cautions.flatMap((caution) => hangText('  ', caution))];
}
