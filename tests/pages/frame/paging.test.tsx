import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { byteLength, Parts, pageOut, renderPart } from '../../../src/pages/frame/index.js';
import { linksOf, textOf } from '../support/look-at-page.js';

describe('pageOut', () => {
  const self = (size: number): number => size;

  it('fills pages in order, the first with less', () => {
    expect(pageOut([3, 3, 3, 3], self, { bytes: 3 }, { bytes: 6 })).toEqual([[3], [3, 3], [3]]);
    expect(pageOut([1, 1, 1], self, { bytes: 9, items: 1 }, { bytes: 9 })).toEqual([[1], [1, 1]]);
    expect(pageOut([9, 1], self, { bytes: 5 })).toEqual([[9], [1]]);
    expect(pageOut([], self, { bytes: 5 })).toEqual([[]]);
  });

  it('keeps everything, and no page of more than one item is too large', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(20)), fc.integer({ min: 1, max: 40 }), (sizes, bytes) => {
        const pages = pageOut(sizes, self, { bytes });
        expect(pages.flat()).toEqual(sizes);
        for (const page of pages) {
          if (page.length > 1) expect(page.reduce((sum, size) => sum + size, 0)).toBeLessThanOrEqual(bytes);
        }
      }),
    );
  });
});

describe('byteLength', () => {
  it('counts UTF-8 (RFC 3629: one to four bytes)', () => {
    expect(['a', 'é', '€', '😀'].map(byteLength)).toEqual([1, 2, 3, 4]);
  });
});

describe('parts', () => {
  it('lead to one another, and say which is shown', () => {
    const html = renderPart(<Parts of="Machines" hrefs={['index.html#machines', 'machines-2.html']} here={1} />);
    expect(linksOf(html)).toEqual(['index.html#machines', 'machines-2.html']);
    expect(textOf(html)).toBe('Machines: part 2 of 2 Part 1 Part 2');
    expect(html).toContain('<a href="machines-2.html" aria-current="true">');
  });

  it('are not spoken of where there is one', () => {
    expect(renderPart(<Parts of="Machines" hrefs={['index.html#machines']} here={0} />)).toBe('');
  });
});
