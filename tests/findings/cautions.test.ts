import { describe, expect, it } from 'vitest';
import {
  adviseAtCabinet,
  CABINET_CAUTIONS,
  CAUTIONS,
  cautionsOf,
  findCaution,
  sayCautions,
} from '../../src/findings/index.js';

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

  it('go with the advice as data, never in its text', () => {
    const { advice, cautions } = adviseAtCabinet('Do this.', 'food');
    expect(advice).toBe('Do this.');
    expect(cautions).toEqual([...CABINET_CAUTIONS, 'food']);
  });

  it('are each said once, in one order, whoever carries them', () => {
    const all = [{ cautions: ['food', 'tilt'] }, {}, { cautions: ['tilt', 'harness'] }] as const;
    expect(cautionsOf(all)).toEqual(['harness', 'tilt', 'food']);
    expect(sayCautions(['food', 'tilt', 'food'])).toEqual([CAUTIONS.tilt, CAUTIONS.food]);
  });

  it('are found again by what they say', () => {
    for (const [name, words] of Object.entries(CAUTIONS)) expect(findCaution(words)).toBe(name);
    expect(findCaution('Mind the step.')).toBeNull();
  });
});
