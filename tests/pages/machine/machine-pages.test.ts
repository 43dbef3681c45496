import { describe, expect, it } from 'vitest';
import { makeDay } from '../../../src/day/index.js';
import { makeSite } from '../../../src/pages/index.js';
import { makeMachinePages } from '../../../src/pages/machine/index.js';
import { demoInputs } from '../../day/demo-day.js';
import { expectSoundPage } from '../support/look-at-page.js';

describe('the pages of the demo’s machines', () => {
  const inputs = demoInputs('2026-11-23');
  const day = makeDay(inputs);
  const files = [...makeMachinePages({ inputs, day }, makeSite({ day: inputs.day }))];

  it('are one each, and sound', () => {
    expect(files.map(({ name }) => name)).toEqual([1, 2, 3, 4, 5, 6, 7, 8].map((place) => `machine-v10${place}.html`));
    for (const { text } of files) expectSoundPage(text);
  });
});
