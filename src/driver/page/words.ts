import type { Verdict } from '../../checks/index.js';
import { printable } from '../../findings/index.js';
import { sayNumbers } from '../../model/index.js';
import type { CheckJson, FindingJson } from '../../report/index.js';
import { plural } from '../../report/text/words.js';

/** What a verdict is called. */
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  'read-again': 'Read again',
  doubtful: 'Doubtful',
  sound: 'Sound',
};

/** What a finding's weight is called. */
export const SEVERITY_WORDS: Readonly<Record<FindingJson['severity'], string>> = {
  fault: 'Fault',
  doubt: 'Doubt',
  note: 'Note',
};

/** What is to be done, without the verdict before it. */
export function todoOf(headline: string): string {
  const todo = printable(headline.slice(headline.indexOf(': ') + 2), 600);
  return todo.charAt(0).toUpperCase() + todo.slice(1);
}

/** What is to be done, in a list that has its cautions elsewhere. */
export function listTodoOf(headline: string): string {
  return todoOf(headline).replace(' Mind the cautions below.', '');
}

/** How many captures are what, worst first. */
export function countWords(counts: Readonly<Record<Verdict, number>>): string {
  const { 'read-again': again, doubtful, sound } = counts;
  return `${plural(again + doubtful + sound, 'capture')}: ${again} to read again, ${doubtful} doubtful, ${sound} sound.`;
}

/** An advice; its cautions stand beside the answer, each once. */
export function adviceWords(advice: string): string {
  return printable(advice, 1200);
}

/** Where a finding stands, and its code. */
export function placeWords(finding: FindingJson, file: string | null): string {
  const { machine, row, field, line, element, segment, column, expected, received, code } = finding;
  const parts = [
    finding.file === undefined || finding.file === file ? null : finding.file,
    machine === undefined ? null : `machine ${machine}`,
    row === undefined ? null : `row ${row}`,
    field === undefined ? null : `column ${field}`,
    column === undefined ? null : `column ${column}`,
    line === null ? null : `line ${line}`,
    element ?? segment,
    expected === undefined || row !== undefined ? null : `expected ${expected}`,
    received === undefined || row !== undefined ? null : `found ${received}`,
    code,
  ];
  return printable(parts.filter((part) => part !== null).join(', '), 400);
}

type ReadJson = CheckJson['reads'][number];

/** A machine as the roster names it, and as it names itself. */
export function machineWords({ name, location, model, ...numbers }: ReadJson['machine']): string {
  const own = [...sayNumbers(numbers), ...(model === null ? [] : [`model ${model}`])];
  const known = [name, location].filter((part) => part !== null);
  const all = known.length === 0 || own.length === 0 ? [...known, ...own] : [...known, `(${own.join(', ')})`];
  return all.length === 0 ? 'it does not say' : printable(all.join(', ').replace(', (', ' ('), 300);
}

const INTEGRITY_WORDS: Readonly<Record<ReadJson['integrity']['state'], string>> = {
  exact: 'exact',
  'byte-swapped': 'exact, low byte first',
  'line-endings': 'fits once line endings are restored',
  'range-variant': 'fits over a range of its own',
  damaged: 'does not fit: damaged',
  absent: 'no value to check against',
};

/** Whether the integrity value fits, with the values where it does not fit as it should. */
export function integrityWords({ state, stated, computed }: ReadJson['integrity']): string {
  const values = state === 'exact' || stated === null ? '' : ` (says ${stated}, bytes give ${computed ?? 'nothing'})`;
  return printable(INTEGRITY_WORDS[state] + values, 200);
}

/** How many segments came, and how many should have. */
export function segmentWords({ segments: { stated, counted }, complete }: ReadJson): string {
  const said = stated === counted ? '' : `, ${stated ?? 'none'} stated`;
  return `${counted}${said}${complete ? '' : ', cut short'}`;
}

/** In which money amounts are. */
export function moneyWords(currency: string | null, decimals: number | null): string {
  const name = printable(currency ?? 'currency not known', 20);
  return decimals === null ? `${name}, decimals not known: digits as the machine gives them` : name;
}
