import { type Finding, makeFinding, type Severity } from '../findings/index.js';
import type { ColumnSales } from './column-sales.js';
import type { Difference } from './difference.js';
import { baseDetail } from './interval-finding.js';
import type { ReadPair } from './read-pair.js';

/** Findings about single counters: rolled over, gone back, gone missing, or not to be told. One for a kind of counter. */
export function judgeCounters(
  pair: ReadPair,
  differences: readonly Difference[],
  columns: readonly ColumnSales[],
): Finding[] {
  const all = [...differences];
  for (const column of columns) {
    if (column.inFrom && column.inTo) all.push(column.soldDifference, column.valueDifference);
  }
  return [
    ...group(all, isRolledOver).map((same) => sayRollOver(pair, same)),
    ...group(all, ({ why }) => why === 'backward').map((same) => sayBackward(pair, same)),
    ...group(all, ({ why }) => why === 'absent-now' || why === 'absent-before').map((same) => sayAbsent(pair, same)),
    ...group(all, ({ why }) => why === 'reset-not-known').map((same) => sayUnclearReset(pair, same)),
    ...group(all, ({ basis, floor }) => basis === 'interval' && floor).map((same) => sayFloor(pair, same)),
  ];
}

const isRolledOver = ({ modulus }: Difference): boolean => modulus !== null;

/** The differences that match, those of one element together: a machine with 45 columns must not say a thing 45 times. */
function group(differences: readonly Difference[], matches: (difference: Difference) => boolean): Difference[][] {
  const groups = new Map<string, Difference[]>();
  for (const difference of differences) {
    if (!matches(difference)) continue;
    const key = `${difference.element.name} ${difference.why}`;
    const same = groups.get(key);
    if (same === undefined) groups.set(key, [difference]);
    else same.push(difference);
  }
  return [...groups.values()];
}

function say(
  pair: ReadPair,
  same: readonly Difference[],
  code: 'counter-rollover' | 'counter-backward' | 'absent-counter' | 'unseen-reset',
  text: string,
  more: { severity?: Severity; advice?: string } = {},
): Finding {
  const { element, column } = same[0]!;
  const names = same.map((difference) => difference.column).filter((name) => name !== null);
  const where =
    names.length === 0
      ? ''
      : ` (column ${names.slice(0, 8).join(', ')}${names.length > 8 ? ` and ${names.length - 8} more` : ''})`;
  return makeFinding(code, `${element.name}, ${element.meaning}${where}: ${text}`, {
    ...baseDetail(pair, element.name, column),
    ...more,
  });
}

function sayRollOver(pair: ReadPair, same: readonly Difference[]): Finding {
  const { from, to, modulus } = same[0]!;
  return say(
    pair,
    same,
    'counter-rollover',
    `it ran past its last digit, from ${from} to ${to}; ${modulus} was added.`,
  );
}

function sayBackward(pair: ReadPair, same: readonly Difference[]): Finding {
  const { from, to } = same[0]!;
  return say(
    pair,
    same,
    'counter-backward',
    `it went down from ${from} to ${to}, and no cause was found. Its figure is left out.`,
    {
      advice: 'Read the machine again and compare; if it stays so, have the board looked at.',
    },
  );
}

function sayAbsent(pair: ReadPair, same: readonly Difference[]): Finding {
  return same[0]!.why === 'absent-now'
    ? say(
        pair,
        same,
        'absent-counter',
        'it was there at the earlier read and is not there now. Absent is not zero: its figure is not known.',
      )
    : say(
        pair,
        same,
        'absent-counter',
        'it was not there at the earlier read, and nothing shows that it stood at 0. Its figure is not known.',
      );
}

function sayUnclearReset(pair: ReadPair, same: readonly Difference[]): Finding {
  const { from, to } = same[0]!;
  return say(
    pair,
    same,
    'absent-counter',
    `there is no lifetime counter, and it cannot be told whether the earlier read cleared this one (${from ?? 'absent'} then, ${to} now). Its figure is not known.`,
    { advice: "A machine profile that says when this machine resets ('resets') settles it." },
  );
}

function sayFloor(pair: ReadPair, same: readonly Difference[]): Finding {
  return say(
    pair,
    same,
    'unseen-reset',
    'there is no lifetime counter, and somebody cleared this one in between. What it shows is the least it can have been.',
    { severity: 'doubt' },
  );
}
