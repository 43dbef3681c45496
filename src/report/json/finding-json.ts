import { type Finding, type Place, sayCautions } from '../../findings/index.js';
import type { FindingJson } from '../shapes/finding.js';

/** A finding as programs get it: what it always says as null where it is not known, its other places where they are. */
export function findingToJson(finding: Finding): FindingJson {
  const { code, severity, message, advice, cautions = [], expected, received, related } = finding;
  const { segment, element, line, offset, read, file, machine, column, row, field } = finding;
  return {
    code,
    severity,
    message,
    advice: advice ?? null,
    ...(cautions.length === 0 ? {} : { cautions: sayCautions(cautions) }),
    segment: segment ?? null,
    element: element ?? null,
    line: line ?? null,
    offset: offset ?? null,
    read: read ?? null,
    ...dropUndefined({ file, machine, column, row, field, expected, received }),
    ...(related === undefined ? {} : { related: related.map((place) => dropUndefined<Place>({ ...place })) }),
  };
}

/** Findings that belong to no single object, for the first one; nothing when there are none. */
export function generalToJson(findings: readonly Finding[]): { general?: FindingJson[] } {
  return findings.length === 0 ? {} : { general: findings.map(findingToJson) };
}

function dropUndefined<T extends object>(record: { [Key in keyof T]: T[Key] | undefined }): T {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined)) as T;
}
