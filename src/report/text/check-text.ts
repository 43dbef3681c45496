import { type CaptureCheck, nameOfSummary, type ReadSummary, timeOfSummary } from '../../checks/index.js';
import { printable } from '../../findings/index.js';
import { sayNumbers } from '../../model/index.js';
import { layFindings } from './findings-text.js';
import type { Style } from './style.js';
import { layTable, type TableColumn } from './text-table.js';
import { countCell, plural, timeWords } from './words.js';
import { hangText } from './wrap-text.js';

/** Of a file with many reads so many are listed. */
const MOST_READS = 20;

const READS: readonly TableColumn[] = [
  { head: 'read', align: 'right' },
  { head: 'machine', mayCut: true },
  { head: 'clock' },
  { head: 'segments', align: 'right' },
  { head: 'integrity' },
  { head: 'columns', align: 'right' },
];

/** The check of one file for a person: first the verdict and the one thing to do, then what it rests on. */
export function layCheck(check: CaptureCheck & { readonly firstRead?: number }, style: Style): string[] {
  const { file, headline, reads, findings, firstRead = 0 } = check;
  const [only] = reads;
  return [
    ...hangText('', printable(headline, 400)).map(style.bold),
    ...hangText('  ', printable(file, 400)).map(style.dim),
    ...(reads.length === 1 ? layRead(only!) : layReads(reads, firstRead, style)),
    ...(findings.length === 0 ? [] : ['', ...layFindings(findings, style, contextOf(check))]),
  ];
}

function contextOf({ file, reads }: CaptureCheck): { file: string; machine: string | undefined } {
  const machine = reads.length === 1 ? reads[0]!.machine.name : null;
  return { file, machine: machine ?? undefined };
}

const INTEGRITY_WORDS: Readonly<Record<ReadSummary['integrity']['state'], string>> = {
  exact: 'exact',
  'byte-swapped': 'exact, low byte first',
  'line-endings': 'fits once line endings are restored',
  'range-variant': 'fits over a range of its own',
  damaged: 'damaged',
  absent: 'none to check against',
};

function layRead(read: ReadSummary): string[] {
  const { clock, currency, decimals, segments, integrity, complete, columns } = read;
  const values =
    integrity.stated === null ? '' : ` (${integrity.stated}, bytes give ${integrity.computed ?? 'nothing'})`;
  const stated = segments.stated === segments.counted ? '' : `, ${segments.stated ?? 'none'} stated`;
  const money = [currency, decimals === null ? null : plural(decimals, 'decimal')].filter((part) => part !== null);
  return [
    ['machine', nameMachine(read)],
    ['clock', `${timeWords(clock)}${betterTime(read)}`],
    ['segments', `${segments.counted}${stated}${complete ? '' : ', cut short'}`],
    ['integrity', `${INTEGRITY_WORDS[integrity.state]}${integrity.state === 'exact' ? '' : values}`],
    ['columns', String(columns)],
    ['money', money.length === 0 ? 'not known' : money.join(', ')],
  ].flatMap(([name, text]) => hangText(`  ${name!.padEnd(9)}  `, printable(text!, 300)));
}

function nameMachine({ machine: { name, location, model, ...numbers } }: ReadSummary): string {
  const own = [...sayNumbers(numbers), ...(model === null ? [] : [`model ${model}`])];
  const known = [name, location].filter((part) => part !== null);
  if (own.length === 0 && known.length === 0) return 'it does not say';
  return known.length === 0 ? own.join(', ') : `${known.join(', ')} (${own.join(', ')})`;
}

function layReads(reads: readonly ReadSummary[], firstRead: number, style: Style): string[] {
  if (reads.length === 0) return [];
  const rows = reads
    .slice(0, MOST_READS)
    .map((read, i) => [
      String(firstRead + i + 1),
      nameOfSummary(read) ?? '',
      timeWords(read.clock),
      countCell(read.segments.counted),
      read.integrity.state,
      countCell(read.columns),
    ]);
  const rest = reads.length - rows.length;
  return [
    ...layTable(READS, rows, style, { indent: '  ' }),
    ...(rest === 0 ? [] : [`  and ${plural(rest, 'more read')}; --json lists them all.`]),
  ];
}

/** The time by which the read goes, where that is not the clock's. */
function betterTime(read: ReadSummary): string {
  const best = timeOfSummary(read);
  if (best === null || best.kind === 'clock') return '';
  return `, ${best.kind === 'received' ? 'received' : 'the reader says'} ${timeWords(best.time)}`;
}
