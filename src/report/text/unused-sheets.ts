import type { Finding } from '../../findings/index.js';

/** Findings that belong to nothing in particular, in two parts. */
export interface SplitFindings {
  /** A sheet could not be used at all: nothing of a report can be read without knowing that, so it comes first. */
  readonly unused: readonly Finding[];
  readonly others: readonly Finding[];
}

/** Part the findings that say that a sheet could not be used from all others. */
export function splitUnusedSheets(general: readonly Finding[]): SplitFindings {
  return { unused: general.filter(isSheetUnused), others: general.filter((finding) => !isSheetUnused(finding)) };
}

const isSheetUnused = ({ code, severity }: Finding): boolean => severity === 'fault' && code.startsWith('sheet-');
