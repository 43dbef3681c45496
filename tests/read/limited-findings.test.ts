import { describe, expect, it } from 'vitest';
import { makeFinding } from '../../src/findings/index.js';
import { LimitedFindings, readCaptures } from '../../src/read/index.js';
import { bytesOf } from '../support/build-capture.js';

describe('a limited list of findings', () => {
  it('gives all of them up to the limit', () => {
    const list = new LimitedFindings(2);
    expect(list.list()).toEqual([]);
    const note = makeFinding('padding', 'A.');
    list.push(note);
    list.push(note);
    expect(list.list()).toEqual([note, note]);
  });

  it('counts the rest, and keeps the worst of it', () => {
    const list = new LimitedFindings(1);
    list.push(makeFinding('padding', 'A.'));
    list.push(makeFinding('junk-before', 'B.'));
    list.push(makeFinding('cut-short', 'C.', { line: 7 }));
    list.push(makeFinding('clock-wrong', 'D.'));
    expect(list.list().slice(1)).toEqual([
      makeFinding('cut-short', 'There are 3 more findings; the worst of them: C.', { line: 7 }),
    ]);
  });

  it('keeps a file made of headers from filling the memory', () => {
    const { findings } = readCaptures(bytesOf('DXS\r\n'.repeat(30_000)));
    expect(findings).toHaveLength(10_001);
    expect(findings.at(-1)!.message).toMatch(/^There are 20000 more findings; the worst of them: The file ends/);
  });
});
