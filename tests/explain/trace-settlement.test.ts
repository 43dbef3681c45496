import { describe, expect, it } from 'vitest';
import { traceFigure } from '../../src/explain/index.js';
import { isSettled } from '../../src/settlement/index.js';
import { settleDemo } from '../support/demo-files.js';

const [settlement] = settleDemo().settlements;
const stepOf = (id: string) => traceFigure(settlement!, id)!.step;

describe('traces of a settlement', () => {
  it('add up the settled visits alone, each by its own figure', () => {
    const settled = settlement!.visits.filter(isSettled);
    const step = stepOf('totals.expected.coins');
    expect(step.parts.map(({ ref }) => ref)).toEqual(settled.map(({ bag }) => `visits.${bag}.expected.coins`));
    expect(step.value).toBe(settlement!.totals.expected.coins);
  });

  it('name the figures of a visit from the settlement on', () => {
    const refs = stepOf('visits.B4407.cash.tubeDifference').parts.flatMap(({ ref }) => ref ?? []);
    expect(refs).toContain('visits.B4407.cash.tubesTo');
    for (const ref of refs) expect(traceFigure(settlement!, ref)).not.toBeNull();
  });

  it('give the loss of visits that have a plan', () => {
    expect(stepOf('totals.loss').value).toBe(settlement!.totals.loss);
    expect(stepOf('visits.B4407.loss')).toMatchObject({ value: 60, parts: [{ ref: 'visits.B4407.totals.loss' }] });
  });
});
