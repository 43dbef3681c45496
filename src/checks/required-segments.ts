import type { SegmentId } from '../dictionary/index.js';
import { type Finding, makeFinding } from '../findings/index.js';
import type { Read } from '../read/index.js';
import { type Check, type CheckContext, NOTHING } from './check.js';
import { READ_AGAIN } from './wording.js';

/** What the accounts need when something says that the machine has it; one segment of each entry is enough. */
interface Need {
  readonly oneOf: readonly SegmentId[];
  readonly what: string;
}

const CASH_NEEDS: readonly Need[] = [
  { oneOf: ['CA2'], what: 'cash sales' },
  { oneOf: ['CA3'], what: 'the cash that came in' },
];
const CARD_NEEDS: readonly Need[] = [{ oneOf: ['DA2', 'DB2'], what: 'card sales' }];
const SALES_NEED: Need = { oneOf: ['VA1', 'PA2'], what: 'sales' };

const COMPARE = "Look whether the machine's audit settings were changed; without it this part can not be settled.";

/** Says which segments are missing that any read, or the accounts of this machine, must have. */
export const requiredSegmentsCheck: Check = {
  codes: ['missing-segment'],
  summary: 'Whether ST, ID1 and SE are there, and what the accounts of this machine need.',
  reference: 'memory (EVA-DTS); what a machine must have: its roster row, else its last good read',
  run(read, context) {
    const hasFrame = read.line('ST') >= 0 && read.line('ID1') >= 0 && read.line('SE') >= 0;
    const frame = hasFrame ? NOTHING : findMissingFrame(read);
    const accounts = read.isComplete ? findMissingAccounts(read, context) : NOTHING;
    return frame === NOTHING ? accounts : [...frame, ...accounts];
  },
};

function findMissingFrame(read: Read): Finding[] {
  const findings: Finding[] = [];
  const missing = (id: SegmentId, message: string): void => {
    findings.push(
      makeFinding('missing-segment', message, {
        read: read.number,
        segment: id,
        severity: 'fault',
        expected: id,
        advice: READ_AGAIN,
      }),
    );
  };
  if (read.line('ST') < 0) missing('ST', 'The beginning of the read (ST) is missing, and with it perhaps more.');
  if (read.line('ID1') < 0) missing('ID1', 'The machine does not say which one it is (ID1 is missing).');
  // At the end of a file a missing SE is a cut; before another header it was left out.
  if (read.line('SE') < 0 && read.range.endedBy === 'header') {
    missing('SE', 'The end of the read (SE) is missing, though the file goes on after it.');
  }
  return findings;
}

function findMissingAccounts(read: Read, context: CheckContext): readonly Finding[] {
  const { machine, lastGood, profile } = context;
  const hasSales = SALES_NEED.oneOf.some((id) => read.has(id));
  if (hasSales && machine === null && lastGood === null) return NOTHING;
  const findings: Finding[] = [];
  const look = (need: Need, why: string): void => {
    if (need.oneOf.some((id) => read.has(id))) return;
    findings.push(
      makeFinding(
        'missing-segment',
        `The capture does not give ${need.what} (${need.oneOf.join(' or ')}), though ${why}.`,
        {
          read: read.number,
          segment: need.oneOf[0]!,
          expected: need.oneOf.join(' or '),
          advice: COMPARE,
        },
      ),
    );
  };
  look(SALES_NEED, 'every read should');
  // A zero segment may be left out, on machines of which a profile says so (manual L0118P-SP, p. 62).
  if (profile?.zeroSegmentsLeftOut === true) return findings;
  const groups = [
    [machine?.hasCash ?? null, 'cash', CASH_NEEDS],
    [machine?.hasCard ?? null, 'a card reader', CARD_NEEDS],
  ] as const;
  for (const [has, what, needs] of groups) {
    for (const need of needs) {
      if (has === true) look(need, `the roster says the machine has ${what}`);
      else if (has === null && lastGood !== null && need.oneOf.some((id) => lastGood.has(id))) {
        look(need, 'the last good read of this machine did');
      }
    }
  }
  return findings;
}
