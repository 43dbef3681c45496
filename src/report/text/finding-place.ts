import type { Finding } from '../../findings/index.js';
import { baseName } from '../../sheets/index.js';

/** What a finding's place need not say, since what stands around it does. */
export interface KnownPlace {
  readonly file?: string | undefined;
  readonly machine?: string | undefined;
}

/**
 * Where a finding stands and what was expected there, part by part; not yet made printable.
 *
 * @param nameFile - how a file is named
 */
export function placeParts(
  finding: Finding,
  known: KnownPlace,
  nameFile: (file: string) => string = (file) => file,
): string[] {
  const { file, machine, row, field, line, element, segment, expected, received, related } = finding;
  const from = related?.find((other) => other.file !== undefined && other.file !== file)?.file;
  const parts = [
    machine === undefined || machine === known.machine ? null : `machine ${machine}`,
    file === undefined || file === known.file ? null : nameFile(file),
    row === undefined ? null : `row ${row}`,
    field === undefined ? null : `column ${field}`,
    line === undefined ? null : `line ${line}`,
    element ?? segment ?? null,
    expected === undefined || row !== undefined ? null : `expected ${expected}`,
    received === undefined || row !== undefined ? null : `found ${received}`,
    from === undefined ? null : `against ${baseName(from)}`,
  ];
  return parts.filter((part) => part !== null);
}
