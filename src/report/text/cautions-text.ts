import { type CautionName, sayCautions } from '../../findings/index.js';
import type { Style } from './style.js';
import { hangText } from './wrap-text.js';

/** Cautions as the end of a report, each once. */
export function layCautions(cautions: readonly CautionName[], style: Style): string[] {
  if (cautions.length === 0) return [];
  return ['', style.bold('Cautions'), ...sayCautions(cautions).flatMap((caution) => hangText('  ', caution))];
}
