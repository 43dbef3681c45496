import { describe, expect, it } from 'vitest';
import { makeDay } from '../../../src/day/index.js';
import { makeSite } from '../../../src/pages/index.js';
import { makeMachinePages } from '../../../src/pages/machine/index.js';
import { demoInputs } from '../../day/demo-day.js';
import { expectSoundPage, linksOf, tagsOf } from '../support/look-at-page.js';

describe('the pages of the demo’s machines', () => {
  const inputs = demoInputs('2026-11-23');
  const day = makeDay(inputs);
  const files = [...makeMachinePages({ inputs, day }, makeSite({ day: inputs.day }))];

  it('are one each, and sound', () => {
    const own = files.map(({ name }) => name).filter((name) => !name.includes('.trend'));
    expect(own).toEqual([1, 2, 3, 4, 5, 6, 7, 8].map((place) => `machine-v10${place}.html`));
    for (const { text } of files) expectSoundPage(text);
  });

  it('lead to ids that are there, on the same page or another of them', () => {
    const idsOf = new Map(
      files.map(({ name, text }) => [name, new Set(tagsOf(text).map(({ attributes }) => attributes.get('id')))]),
    );
    for (const { name, text } of files) {
      for (const link of linksOf(text)) {
        const [file, id] = link.split('#');
        const ids = idsOf.get(file === '' ? name : file!);
        if (ids !== undefined && id !== undefined) expect(ids.has(id), `${name}: ${link}`).toBe(true);
      }
    }
  });
});
