import type { Finding } from '../../findings/index.js';
import { checkToJson, generalToJson, writeJson } from '../../report/index.js';
import type { CheckedPart } from './check-sent-file.js';

/**
 * The checks as JSON lines, the same as `coilbook check … --json` prints of these files.
 *
 * @param general - what belongs to no capture; it stands on the first line
 */
export function writeCheckLines(parts: readonly CheckedPart[], general: readonly Finding[]): string {
  const others = generalToJson(general);
  if (parts.length === 0) return general.length === 0 ? '' : `${writeJson(others)}\n`;
  return parts.map((part, i) => `${writeJson({ ...checkToJson(part), ...(i === 0 ? others : {}) })}\n`).join('');
}
