import { expect, it } from 'vitest';
import { nameElements } from '../../src/explain/index.js';

it('names elements of a segment that follow each other together', () => {
  expect(nameElements(['LA101', 'CA703', 'CA701', 'CA702', 'CA801', 'CA802', 'CA1101'])).toEqual([
    'CA1101',
    'CA701-03',
    'CA801-02',
    'LA101',
  ]);
  expect(nameElements([])).toEqual([]);
});
