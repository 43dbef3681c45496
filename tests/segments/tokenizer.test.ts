import { describe, expect, it } from 'vitest';
import { SEGMENT } from '../../src/dictionary/index.js';
import { LINE_KIND } from '../../src/segments/index.js';
import { textOf } from '../support/latin1-bytes.js';
import { parseFacts, parseText } from './parse-text.js';

const { ST, PA1, SE } = SEGMENT;
const { blank, padding, unknownSegment } = LINE_KIND;
const rawOf = (text: string): string[] => parseFacts(text).map((fact) => fact.raw);
const kindsOf = (text: string): number[] => parseFacts(text).map((fact) => fact.kind);

describe('line endings', () => {
  it.each([
    ['CR LF', '\r\n'],
    ['LF', '\n'],
    ['CR', '\r'],
  ])('%s ends a line', (_, eol) => {
    const facts = parseFacts(`ST*001*0001${eol}PA1*7*150${eol}`);
    expect(facts.map(({ line, kind, offset, ending }) => ({ line, kind, offset, ending }))).toEqual([
      { line: 1, kind: ST.index, offset: 0, ending: eol },
      { line: 2, kind: PA1.index, offset: 11 + eol.length, ending: eol },
    ]);
    expect(facts[1]?.elements).toEqual(['7', '150']);
  });

  it('may be of several kinds in one file', () => {
    expect(rawOf('ST\rPA1\nSE\r\nSE')).toEqual(['ST\r', 'PA1\n', 'SE\r\n', 'SE']);
  });

  it('CR CR LF is a line, then a blank one', () => {
    expect(rawOf('ST\r\r\nSE\r\r\n')).toEqual(['ST\r', '\r\n', 'SE\r', '\r\n']);
    expect(kindsOf('ST\r\r\nSE\r\r\n')).toEqual([ST.index, blank, SE.index, blank]);
  });

  it('LF CR is two endings', () => {
    expect(rawOf('ST\n\rSE')).toEqual(['ST\n', '\r', 'SE']);
  });

  it('may be missing after the last line', () => {
    expect(parseFacts('ST*001*0001\r\nSE*2*0001').at(-1)).toMatchObject({
      raw: 'SE*2*0001',
      ending: '',
      elements: ['2', '0001'],
    });
    expect(parseFacts('SE*2*0001\r').at(-1)).toMatchObject({ ending: '\r', elements: ['2', '0001'] });
  });

  it('make blank lines, spaces included, that are no segments but are counted and kept', () => {
    const text = '\r\n\r\nST\r\n  \r\n\nSE\r\n';
    expect(kindsOf(text)).toEqual([blank, blank, ST.index, blank, blank, SE.index]);
    expect(rawOf(text).join('')).toBe(text);
    expect([...parseText(text)[0]!].map((segment) => [segment.id, segment.line])).toEqual([
      ['ST', 3],
      ['SE', 6],
    ]);
  });
});

describe('what a line ends with besides', () => {
  it('trailing spaces are left out of the content and kept in the bytes', () => {
    expect(parseFacts('PA1*7*150   \r\n')).toMatchObject([
      { kind: PA1.index, elements: ['7', '150'], contentEnd: 9, ending: '\r\n', raw: 'PA1*7*150   \r\n' },
    ]);
    expect(parseFacts('ST  \r\n')).toMatchObject([{ kind: ST.index, id: 'ST', elements: [] }]);
    expect(parseFacts('PA1*7*  \r\n')).toMatchObject([{ elements: ['7', ''] }]);
  });

  it('spaces before or inside are content', () => {
    expect(parseFacts(' ST*1\r\n')).toMatchObject([{ kind: unknownSegment, id: ' ST' }]);
    expect(parseFacts('PA1* 7 *1 50\r\n')).toMatchObject([{ elements: [' 7 ', '1 50'] }]);
  });

  it('NUL and 1Ah at the end of the file are padding, a line of its own or not', () => {
    expect(parseFacts('SE*2*0001\r\n\0\0\x1a')).toMatchObject([
      { kind: SE.index },
      { kind: padding, hasControl: false },
    ]);
    expect(parseFacts('SE*2*0001\0\0')).toMatchObject([{ kind: SE.index, elements: ['2', '0001'], hasControl: false }]);
    expect(parseText('SE\r\n\0\0')[0]!.segment(1)).toBeNull();
  });
});

describe('identifiers', () => {
  it.each(['ZZ9', 'X', 'ABCDE', 'pa1', 'PA', 'CA99', 'Hello world'])('%j is an unknown segment, kept', (id) => {
    expect(parseFacts(`${id}*1*2\r\n`)).toMatchObject([{ kind: unknownSegment, id, elements: ['1', '2'] }]);
  });

  it('may be empty', () => {
    expect(parseFacts('*1\r\n')).toMatchObject([
      { kind: unknownSegment, id: '', elements: ['1'], elementOffsets: [1] },
    ]);
  });
});

describe('elements', () => {
  it('may be empty anywhere, and trailing empty ones are counted', () => {
    const [block] = parseText('PA1**150**\r\n');
    expect(block!.elementCount(0)).toBe(4);
    expect([1, 2, 3, 4, 5].map((position) => block!.text(0, position))).toEqual(['', '150', '', '', null]);
    expect([1, 2, 5].map((position) => block!.number(0, position))).toEqual([null, 150, null]);
  });

  it('may be many', () => {
    const [fact] = parseFacts(`ZZ1${'*'.repeat(5000)}\r\n`);
    expect(fact?.elements).toHaveLength(5000);
    expect(fact?.elementOffsets.at(-1)).toBe(5003);
  });

  it('keep bytes that are not ASCII as they came', () => {
    const [block] = parseText('PA1*7*150*Caf\xe9 \x80\x9f\xff\r\n');
    expect(block!.text(0, 3)).toBe('Caf\xe9 \x80\x9f\xff');
    expect(textOf(block!.raw(0))).toBe('PA1*7*150*Caf\xe9 \x80\x9f\xff\r\n');
    expect(block!.parts.controlLines).toEqual([]);
  });

  it('with control characters inside are kept and their lines named', () => {
    const [block] = parseText('PA1*7\r\nPA1*\x1b[2J\r\nPA1*8\tx\r\nPA1*9\0\r\n');
    expect(block!.parts.controlLines).toEqual([1, 2]);
    expect(block!.text(1, 1)).toBe('\x1b[2J');
  });
});

describe('no bytes', () => {
  it('give no lines', () => {
    expect(parseText('')).toEqual([]);
  });
});
