import { expect, it } from 'vitest';
import { makeFinding } from '../../../src/findings/index.js';
import { splitUnusedSheets } from '../../../src/report/text/unused-sheets.js';

it('parts what makes a sheet useless from everything else', () => {
  const unread = makeFinding('sheet-unreadable', 'no sheet');
  const lacking = makeFinding('sheet-column-missing', 'no column');
  const empty = makeFinding('sheet-empty', 'no rows');
  const capture = makeFinding('capture-unusable', 'left out');
  expect(splitUnusedSheets([capture, unread, empty, lacking])).toEqual({
    unused: [unread, lacking],
    others: [capture, empty],
  });
  expect(splitUnusedSheets([])).toEqual({ unused: [], others: [] });
});
