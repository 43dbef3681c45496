import { describe, expect, it } from 'vitest';
import { adviseAtCabinet, makeFinding } from '../../../src/findings/index.js';
import { Findings, renderPart } from '../../../src/pages/frame/index.js';
import { HOSTILE_TEXTS, HUGE_TEXT } from '../support/hostile.js';
import { tagsOf, textOf } from '../support/look-at-page.js';

const items = (html: string): number =>
  tagsOf(html).filter(({ name, isClosing }) => name === 'li' && !isClosing).length;

describe('findings', () => {
  it('stand worst first, each with what to do and where', () => {
    const html = renderPart(
      <Findings
        file="a.dex"
        machine="V1"
        findings={[
          makeFinding('clock-wrong', 'The clock is off.', { file: 'a.dex', machine: 'V1' }),
          makeFinding('cut-short', 'The file ends early.', {
            file: 'b.dex',
            machine: 'V2',
            line: 7,
            element: 'PA201',
            expected: '5',
            received: '4',
            ...adviseAtCabinet('Read again.'),
            related: [{ file: 'sub/c.dex' }],
          }),
        ]}
      />,
    );
    expect(textOf(html)).toBe(
      '×fault The file ends early. Do: Read again. machine V2, file b.dex, line 7, PA201, expected 5, found 4, ' +
        'against c.dex, cut-short ?doubt The clock is off. clock-wrong',
    );
  });

  it('name the cell of a sheet, not what was expected there twice', () => {
    const finding = makeFinding('bad-cell', 'No number.', { row: 3, field: 'coins', expected: 'x', received: 'y' });
    expect(textOf(renderPart(<Findings findings={[finding]} />))).toContain('row 3, column coins, bad-cell');
  });

  it('lead to where their element is shown', () => {
    const finding = makeFinding('cut-short', 'It ends.', { segment: 'PA2' });
    const html = renderPart(<Findings findings={[finding]} linkOf={() => '#line-7'} />);
    expect(html).toContain('<bdi><a href="#line-7">PA2</a></bdi>');
  });

  it('are counted where there are many of a kind', () => {
    const alike = Array.from({ length: 9 }, (_, place) => makeFinding('clock-wrong', `Clock ${place}.`));
    const html = renderPart(<Findings findings={alike} />);
    expect(items(html)).toBe(7);
    expect(textOf(html)).toContain('And 3 more of this kind (clock-wrong).');
    expect(items(renderPart(<Findings findings={alike.slice(0, 7)} />))).toBe(7);
  });

  it('are cut to the worst, and say how many are left out', () => {
    const notes = Array.from({ length: 9 }, (_, place) => makeFinding('duplicate-read', `Copy ${place}.`));
    const html = renderPart(<Findings findings={[...notes, makeFinding('cut-short', 'It ends.')]} most={3} />);
    expect(items(html)).toBe(4);
    expect(textOf(html)).toMatch(/^×fault It ends\..*And 7 more findings, none of them worse\.$/);
    expect(renderPart(<Findings findings={[]} />)).toBe('');
  });

  it('show hostile text as text, and cut it', () => {
    for (const text of [...HOSTILE_TEXTS, HUGE_TEXT]) {
      const detail = { file: text, advice: text, element: text, received: text };
      const html = renderPart(<Findings findings={[makeFinding('cut-short', text, detail)]} />);
      expect(new Set(tagsOf(html).map(({ name }) => name))).toEqual(
        new Set(['ul', 'li', 'p', 'span', 'bdi', 'strong', 'code']),
      );
      expect(html).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\u200b\ud800]/);
      expect(html.length).toBeLessThan(10_000);
    }
  });
});
