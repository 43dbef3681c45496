import { describe, expect, it } from 'vitest';
import { DataTable, makeSite, Page, renderPage, renderPart, type TableColumn } from '../../../src/pages/frame/index.js';
import { expectSoundPage, tagsOf, textOf } from '../support/look-at-page.js';

interface Row {
  readonly name: string;
  readonly count: number;
}

const columns: readonly TableColumn<Row>[] = [
  { head: 'Name', cell: ({ name }) => name },
  { head: 'Count', isNumber: true, cell: ({ count }) => count },
  { head: 'Words', isWide: true, cell: (_, place) => `row ${place}` },
];
const rows = [
  { name: 'a', count: 1 },
  { name: 'b', count: 2 },
];

describe('a table', () => {
  it('says what it is, names its columns and rows, and can be scrolled by keys', () => {
    const table = <DataTable caption="Things" columns={columns} rows={rows} rowId={({ name }) => `thing-${name}`} />;
    const html = renderPage(
      <Page title="T" site={makeSite({ day: '2026-11-23' })} here="t.html">
        {table}
      </Page>,
    );
    expectSoundPage(html);
    expect(html).toContain('<div class="table" role="group" aria-label="Things" tabindex="0">');
    expect(html).toContain(
      '<tr id="thing-b"><th scope="row">b</th><td class="number">2</td><td class="wide">row 1</td>',
    );
    expect(tagsOf(html).filter(({ attributes }) => attributes.get('scope') === 'col')).toHaveLength(3);
  });

  it('shows what hides in its caption', () => {
    const html = renderPart(<DataTable caption={'\u001b"'} columns={columns} rows={[]} />);
    expect(html).toContain('aria-label="\\x1B&quot;"');
    expect(html).toContain('<caption>\\x1B&quot;</caption>');
  });

  it('has a foot for sums', () => {
    const html = renderPart(<DataTable caption="Things" columns={columns} rows={rows} footer={['total', 3, '']} />);
    expect(html).toContain('<tfoot><tr><th scope="row">total</th><td class="number">3</td>');
    expect(textOf(html)).toBe('Things Name Count Words a 1 row 0 b 2 row 1 total 3');
  });
});
