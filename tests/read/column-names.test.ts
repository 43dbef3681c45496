import { describe, expect, it } from 'vitest';
import { ColumnNames } from '../../src/read/column-names.js';
import { parseText } from '../segments/parse-text.js';

const blockOf = (text: string) => parseText(text)[0]!;

function takeAll(names: readonly string[]): string[] {
  const block = blockOf(names.map((name) => `PA1*${name}\r\n`).join(''));
  const columns: number[] = [];
  const seen = new ColumnNames(block);
  return names.map((_, line) => {
    const state = seen.take(line, columns, 1);
    if (state === 'new') columns.push(line);
    return state;
  });
}

describe('column names', () => {
  it.each([
    ['in rising order', ['9', '10', '11', 'A1', 'A2'], ['new', 'new', 'new', 'new', 'new']],
    ['in falling order', ['12', '11', '10'], ['new', 'new', 'new']],
    ['again right away', ['10', '10'], ['new', 'repeated']],
    ['again later', ['10', '11', '12', '11', '13', '10'], ['new', 'new', 'new', 'repeated', 'new', 'repeated']],
    ['long ones', ['10', 'SNACK1', 'SNACK2', 'SNACK1', '11'], ['new', 'new', 'new', 'repeated', 'new']],
    ['beyond ASCII', ['\u00e4', '\u00e4', 'a'], ['new', 'repeated', 'new']],
    ['none', ['', '10', ''], ['none', 'new', 'none']],
    ['that differ by zeros in front', ['1', '01', '001'], ['new', 'new', 'new']],
    ['short and long with the same beginning', ['ABCD', 'ABCDE', 'ABCD'], ['new', 'new', 'repeated']],
  ])('%s', (_, names, expected) => {
    expect(takeAll(names)).toEqual(expected);
  });

  it('are none on a PA1 without elements', () => {
    const block = blockOf('PA1\r\n');
    expect(new ColumnNames(block).take(0, [], 1)).toBe('none');
  });
});
