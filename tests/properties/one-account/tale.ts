import fc from 'fast-check';
import type { RoundMachine } from '../../support/arbitraries/round.js';
import { arbitraryRound, type RoundChoice } from '../../support/arbitraries/round.js';

/** What happens to each capture: how many nights late it comes, and how late a copy in another file comes, if there is one. */
export interface Fate {
  readonly late: number;
  readonly copy: number | null;
}

const STEPS = [
  'count',
  'count',
  'count-by-day',
  'miscount',
  'amount',
  'driver',
  'move',
  'swap',
  'withdraw',
  'close',
  'close',
  'ask',
  'place',
  'plan',
  'profile',
] as const;

/** Something that the office does after a night: to which bag, machine or day, says a number taken modulo how many there are. */
export interface OfficeStep {
  readonly step: (typeof STEPS)[number];
  readonly i: number;
  readonly j: number;
}

/** What happened at machines, and how the office came to know it. */
export interface Tale {
  readonly machines: readonly RoundMachine[];
  readonly fates: readonly Fate[];
  /** Steps of a night, in order; the nights begin again with the first when they run out. */
  readonly nights: readonly (readonly OfficeStep[])[];
  /** The night from which there is a captures list. */
  readonly listFrom: number;
  /** The night from which the last machine is on the roster. */
  readonly lastMachineFrom: number;
}

const fate: fc.Arbitrary<Fate> = fc.record({
  late: fc.constantFrom(0, 0, 0, 0, 1, 2, 5),
  copy: fc.option(fc.nat(4), { freq: 4 }),
});
const step: fc.Arbitrary<OfficeStep> = fc.record({ step: fc.constantFrom(...STEPS), i: fc.nat(30), j: fc.nat(30) });

export const arbitraryTale = (choice: RoundChoice): fc.Arbitrary<Tale> =>
  fc.record({
    machines: arbitraryRound(choice),
    fates: fc.array(fate, { minLength: 20, maxLength: 20 }),
    nights: fc.array(fc.array(step, { maxLength: 4 }), { minLength: 6, maxLength: 12 }),
    listFrom: fc.constantFrom(0, 0, 0, 2, 4),
    lastMachineFrom: fc.constantFrom(0, 0, 0, 2),
  });
