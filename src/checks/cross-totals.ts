import { type Finding, makeFinding, printable } from '../findings/index.js';
import { pushAll } from '../model/index.js';
import { type CrossTotal, findCrossTotalDifferences, type Read } from '../read/index.js';
import { type Check, type CheckContext, NOTHING } from './check.js';
import { listSome, writeMoney } from './wording.js';

/** Sums of columns that differ are told one by one up to so many, else together. */
const MOST_COLUMNS = 3;

/** Says which totals differ from the sum of their parts. On one read an old scar and a fresh loss look alike: a note. */
export const crossTotalsCheck: Check = {
  codes: ['cross-total'],
  summary: 'Whether totals are the sum of their parts: columns, payment devices, price lists, coin tubes.',
  reference: 'memory (EVA-DTS counters)',
  run(read, context) {
    const differences = findCrossTotalDifferences(read, context.profile);
    return differences.length === 0 ? NOTHING : describeAll(read, differences, context);
  },
};

function describeAll(read: Read, differences: readonly CrossTotal[], context: CheckContext): Finding[] {
  const findings: Finding[] = [];
  const byKind = new Map<string, CrossTotal[]>();
  for (const one of differences) {
    const key = one.column === null ? '' : `${one.id} ${one.span}`;
    const group = byKind.get(key);
    if (group === undefined) byKind.set(key, [one]);
    else group.push(one);
  }
  for (const [key, group] of byKind) {
    if (key === '' || group.length <= MOST_COLUMNS)
      pushAll(
        findings,
        group.map((one) => describe(one, context)),
      );
    else findings.push(describeMany(read, group));
  }
  return findings;
}

function describe(one: CrossTotal, context: CheckContext): Finding {
  const say = (amount: number): string => (one.unit === 'money' ? writeMoney(amount, context) : String(amount));
  const where = one.column === null ? '' : ` of column ${printable(one.column, 20)}`;
  const figures = `The ${one.what}${where} is ${say(one.total)}, ${one.partsWhat} come to ${say(one.parts)}`;
  const why =
    one.rollOver === null
      ? ` (${say(Math.abs(one.total - one.parts))} ${one.total > one.parts ? 'less' : 'more'}); whether that is old or new only a second read can tell`
      : `: exactly ${one.rollOver} apart, so a counter ran past its last digit once, and nothing is missing`;
  return makeFinding('cross-total', `${figures}${why}.`, {
    ...one.totalPlace,
    ...(one.column === null ? {} : { column: one.column }),
    expected: String(one.parts),
    received: String(one.total),
  });
}

function describeMany(read: Read, group: readonly CrossTotal[]): Finding {
  const first = group[0]!;
  const columns = listSome(group.map((one) => printable(one.column ?? '', 20)));
  return makeFinding(
    'cross-total',
    `The ${first.what} differs from the sum of ${first.partsWhat} in ${group.length} columns: ${columns}.`,
    { ...first.totalPlace, read: read.number },
  );
}
