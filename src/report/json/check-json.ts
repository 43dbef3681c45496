import type { CaptureCheck } from '../../checks/index.js';
import type { CheckJson } from '../shapes/check.js';
import { findingToJson } from './finding-json.js';

/**
 * The check of a file as programs get it.
 *
 * @param check - of a whole file, or of a part of one with very many reads, which says the number of its first
 */
export function checkToJson(check: CaptureCheck & { readonly firstRead?: number }): CheckJson {
  const { file, verdict, headline, reads, findings, firstRead = 0 } = check;
  return { file, verdict, headline, firstRead, reads: [...reads], findings: findings.map(findingToJson) };
}
