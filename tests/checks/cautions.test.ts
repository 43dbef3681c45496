import { describe, expect, it } from 'vitest';
import { adviseAtCabinet, CABINET_CAUTIONS, CAUTIONS, firstSentence } from '../../src/checks/cautions.js';

describe('cautions', () => {
  // What the domain rules ask to be said; the words that must not be lost.
  it.each([
    ['harness', /switch off and unplug before connecting or disconnecting any harness/i],
    [
      'inside',
      /live mains, moving and hot or cold parts.*only trained people.*maker's manual.*electrical codes and site rules/i,
    ],
    ['tilt', /never rock or tilt a machine.*fall and kill/i],
    ['food', /perishable food after a temperature fault.*food-safety plan's decision/i],
    ['overShort', /difference between two counts, not proof of wrongdoing.*count again with a second person/i],
    ['accounts', /tax, fiscal and wage consequences follow local law and the operator's accountant/i],
  ] as const)('say of %s what must be said', (name, words) => {
    expect(CAUTIONS[name]).toMatch(words);
  });

  it('go behind the advice, all of them', () => {
    const advice = adviseAtCabinet('Do this.', CAUTIONS.food);
    expect(advice.startsWith('Do this. ')).toBe(true);
    for (const caution of [...CABINET_CAUTIONS, CAUTIONS.food]) expect(advice).toContain(caution);
    expect(firstSentence(advice)).toBe('Do this.');
  });

  it('leave an advice of one sentence as it is', () => {
    expect(firstSentence('Do this')).toBe('Do this');
    expect(firstSentence('Pay 1.50 now. Then go.')).toBe('Pay 1.50 now.');
  });
});
