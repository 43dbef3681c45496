import { takeReads } from '../../src/captures/index.js';
import type { TraceStep } from '../../src/explain/index.js';
import { buildInterval, type Interval } from '../../src/interval/index.js';
import { readCaptures } from '../../src/read/index.js';
import { Roster, readPlan } from '../../src/sheets/index.js';
import { buildCapture } from '../support/build-capture.js';

/** What is known besides the two captures. */
export interface Known {
  /** Rows of a plan, `column,price`, for the machine M1 that the captures are of. */
  readonly plan?: readonly string[];
  readonly hasBills?: boolean;
}

function makeRoster({ plan = [], hasBills }: Known): Roster {
  const sheet = { file: 'plan.csv', content: `machine,column,price\n${plan.map((row) => `M1,${row}\n`).join('')}` };
  const money = { decimalsOf: () => 2, currencyOf: () => 'EUR', defaultDecimals: 2 };
  const place = { file: 'machines.csv', row: 2 };
  const nothing = {
    ...{ location: null, route: null, driver: null, currency: null, decimals: null, hasCash: null, hasCard: null },
    ...{ profile: null, active: null, commission: null, commissionBase: null, tax: null, taxIncluded: null },
  };
  const machine = { machine: 'M1', asset: 'A1', serial: null, hasBills: hasBills ?? null, ...nothing, place };
  return new Roster({ machines: [machine], plan: plan.length === 0 ? [] : readPlan(sheet, money).rows });
}

/** The interval between two reads of these segments; `ID1` and `ID4` are there unless they are given. */
export function pairInterval(before: readonly string[], after: readonly string[], known: Known = {}): Interval {
  const roster = makeRoster(known);
  const take = (file: string, segments: readonly string[]) => {
    const own = ['ID1*S1*M****A1', 'ID4*2*978*EUR'].filter(
      (line) => !segments.some((one) => one.startsWith(line.slice(0, 3))),
    );
    const { reads } = readCaptures(buildCapture([...own, ...segments]));
    return takeReads(file, reads, { roster, check: () => [] })[0]!;
  };
  return buildInterval(take('before.dex', before), take('after.dex', after), roster);
}

/** Every note of a trace, from the outside in. */
export function notesOf(step: TraceStep): string[] {
  return [...(step.note === null ? [] : [step.note]), ...step.parts.flatMap(notesOf)];
}

/** The parts of a trace with their signs, as `+5` or `-3`; a dash for what is not known. */
export function partsOf(step: TraceStep): string[] {
  return step.parts.map(({ sign, value }) => `${sign === 1 ? '+' : '-'}${value ?? '?'}`);
}
