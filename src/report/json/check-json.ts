import type { CaptureCheck } from '../../checks/index.js';
import type { CheckJson } from '../shapes/check.js';
import { findingToJson } from './finding-json.js';

/** The check of a file as programs get it. */
export function checkToJson({ file, verdict, headline, reads, findings }: CaptureCheck): CheckJson {
  return { file, verdict, headline, reads: [...reads], findings: findings.map(findingToJson) };
}
