import type { Finding } from '../findings/index.js';
import type { MachineDay } from './machine-day.js';

/**
 * Whether what was found in captures still holds at the last one of the day that can be relied on. Only such findings are
 * judged as come from a capture of the day; of all others nothing says that they are over.
 */
export function isStillSo(findings: readonly Finding[], { reads }: MachineDay): boolean {
  const own = new Map(reads.map((read) => [`${read.file} ${read.number}`, read]));
  const found = findings.map(({ file, read }) => own.get(`${file} ${read ?? 0}`));
  const last = reads.filter((read) => !read.findings.some(({ severity }) => severity === 'fault')).at(-1);
  if (last === undefined || last.at === null || found.length === 0) return true;
  return found.some((read) => read === undefined || read.at === null || read === last || read.at >= last.at!);
}
