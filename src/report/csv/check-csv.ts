import type { CaptureCheck, ReadSummary } from '../../checks/index.js';
import { type Finding, type Severity, sayCautions } from '../../findings/index.js';
import { csvText } from './csv.js';
import { type CsvTable, csvTime } from './csv-table.js';

/** One row of {@link CHECK_TABLE}: a read, or a file in which there is none. */
export interface CheckRow {
  readonly check: CaptureCheck;
  readonly number: number | null;
  readonly read: ReadSummary | null;
  /** The findings of the read; those of the file as a whole count with its first row. */
  readonly findings: readonly Finding[];
}

/** The rows of a checked file, or of a part of one: one a read, and one for a file without a read. */
export function checkRows(check: CaptureCheck & { readonly firstRead?: number }): CheckRow[] {
  const { reads, findings, firstRead = 0 } = check;
  if (reads.length === 0) return [{ check, number: null, read: null, findings }];
  const byRead = new Map<number, Finding[]>();
  for (const finding of findings) {
    const number = finding.read ?? firstRead;
    const own = byRead.get(number);
    if (own === undefined) byRead.set(number, [finding]);
    else own.push(finding);
  }
  return reads.map((read, i) => ({ check, number: firstRead + i, read, findings: byRead.get(firstRead + i) ?? [] }));
}

const count = ({ findings }: CheckRow, severity: Severity): number =>
  findings.filter((finding) => finding.severity === severity).length;

/** One row a read: what it is and how many findings of which weight it has, with the worst one in words. */
export const CHECK_TABLE: CsvTable<CheckRow> = {
  columns: [
    ['file', ({ check }) => csvText(check.file)],
    ['read', ({ number }) => (number === null ? null : number + 1)],
    ['verdict', ({ check }) => check.verdict],
    ['machine', ({ read }) => csvText(read?.machine.name ?? null)],
    ['location', ({ read }) => csvText(read?.machine.location ?? null)],
    ['asset', ({ read }) => csvText(read?.machine.asset ?? null)],
    ['serial', ({ read }) => csvText(read?.machine.serial ?? null)],
    ['model', ({ read }) => csvText(read?.machine.model ?? null)],
    ['board', ({ read }) => csvText(read?.machine.board ?? null)],
    ['clock', ({ read }) => csvTime(read?.clock ?? null)],
    ['received_at', ({ read }) => csvTime(read?.receivedAt ?? null)],
    ['currency', ({ read }) => read?.currency ?? null],
    ['segments_stated', ({ read }) => read?.segments.stated ?? null],
    ['segments_counted', ({ read }) => read?.segments.counted ?? null],
    ['integrity', ({ read }) => read?.integrity.state ?? null],
    ['complete', ({ read }) => (read === null ? null : read.complete ? 'yes' : 'no')],
    ['columns', ({ read }) => read?.columns ?? null],
    ['faults', (row) => count(row, 'fault')],
    ['doubts', (row) => count(row, 'doubt')],
    ['notes', (row) => count(row, 'note')],
    ['worst', ({ findings }) => findings[0]?.code ?? null],
    ['message', ({ findings }) => csvText(findings[0]?.message ?? null)],
    ['advice', ({ findings }) => csvText(findings[0]?.advice ?? null)],
    ['cautions', ({ findings }) => csvText(sayCautions(findings[0]?.cautions ?? []).join(' ') || null)],
  ],
};
