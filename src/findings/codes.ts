import type { Severity } from './finding.js';

interface CodeEntry {
  /** What the code stands for, in a few words: the README's table is made of these. */
  readonly title: string;
  /** The weight unless the case decides otherwise. */
  readonly severity: Severity;
}

const entry = (severity: Severity, title: string): CodeEntry => ({ title, severity });

/**
 * Every finding code there is, with its default severity. A published code is never given another meaning.
 * Add a code here first; the type {@link FindingCode} follows.
 */
export const FINDING_CODES = {
  // capture
  'integrity-damaged': entry('fault', 'the integrity value does not fit the bytes, in any known variant'),
  'integrity-absent': entry('doubt', 'no integrity value, so damage cannot be ruled out'),
  'integrity-byte-order': entry('note', 'integrity value with its bytes swapped, as older levels write it'),
  'integrity-line-endings': entry('doubt', 'line endings were changed on the way; the content is whole'),
  'integrity-range': entry('note', 'integrity value taken over a range of its own'),
  'cut-short': entry('fault', 'the capture ends too early'),
  'segment-count': entry('doubt', 'SE01 differs from the segments counted'),
  'control-number': entry('doubt', 'header and trailer do not carry the same number'),
  'set-count': entry('doubt', 'DXE02 differs from the sets counted'),
  'envelope-missing': entry('note', 'no DXS and DXE around the set'),
  'loop-open': entry('doubt', 'a loop header without its trailer, or the reverse'),
  'missing-segment': entry('doubt', 'a required segment is not there'),
  'repeated-segment': entry('doubt', 'a segment or column that should come once comes again'),
  'orphan-segment': entry('doubt', 'a product segment without a column before it'),
  'unknown-segment': entry('note', 'segments that are not in the dictionary'),
  'not-a-number': entry('fault', 'a money or count element that is not all digits'),
  'bad-date': entry('doubt', 'a date or time that does not exist'),
  'junk-before': entry('note', 'something else stands before the capture'),
  'junk-between': entry('note', 'lines between the sets that are no segments'),
  padding: entry('note', 'filler bytes after the capture'),
  'overlong-element': entry('doubt', 'a line longer than allowed; its rest was skipped'),
  'overlong-set': entry('fault', 'a set longer, or of more columns, than allowed; it was not read'),
  'control-character': entry('note', 'control characters inside a segment'),
  'empty-file': entry('fault', 'the file is empty'),
  'not-a-capture': entry('fault', 'nothing in the file is a capture'),
  'file-too-large': entry('fault', 'a file larger than allowed; it was not read'),
  'unreadable-file': entry('fault', 'the file could not be read'),
  'value-too-large': entry('fault', 'a number with more digits than can be kept exactly'),
  'last-line-open': entry('note', 'the very last line ending is missing'),
  'reads-unlisted': entry('note', 'a file of so many reads that not all are listed'),
  'weak-signal': entry('note', 'the modem reported less than a good signal'),
  // machine
  'clock-wrong': entry('doubt', 'the machine clock is off'),
  'clock-jump': entry('doubt', 'the machine clock was changed or jumped'),
  'device-missing': entry('doubt', 'a device the roster expects does not report'),
  'event-active': entry('doubt', 'the machine reports an active fault'),
  'other-machine': entry('fault', 'the capture is of another machine than was said'),
  relabelled: entry('doubt', 'the same machine under another number'),
  'unknown-machine': entry('doubt', 'no machine of the roster fits the capture'),
  'change-short': entry('doubt', 'the tubes hold little or no change'),
  'currency-differs': entry('doubt', 'currency or decimals are not those the roster states'),
  'decimals-unknown': entry('note', 'nothing says how many decimals the money has'),
  'test-vend-missing': entry('doubt', 'no test vend was counted'),
  // interval
  'duplicate-read': entry('note', 'the same read came more than once'),
  'out-of-order': entry('note', 'a read arrived out of its order'),
  'counter-rollover': entry('note', 'a counter ran past its last digit and started again'),
  'counter-backward': entry('fault', 'a lifetime counter went down and no cause was found'),
  'memory-cleared': entry('doubt', 'the memory was cleared between two reads'),
  'board-changed': entry('doubt', 'the control board was changed between two reads'),
  'unseen-reset': entry('note', 'someone else cleared the interval counters'),
  'absent-counter': entry('doubt', 'a counter that was there before is not there now'),
  'column-appeared': entry('doubt', 'a column only the later read has'),
  'column-gone': entry('doubt', 'a column only the earlier read has'),
  'price-off-plan': entry('doubt', 'the price in the machine is not the planned one'),
  'price-changed': entry('note', 'the price was changed between two reads'),
  'price-mismatch': entry('doubt', 'the money taken fits no known price'),
  'cross-total': entry('note', 'a total differs from the sum of its parts'),
  'cash-split': entry('doubt', 'cash in is not what went to box, tubes and bills'),
  'bills-as-count': entry('note', 'the machine gives bills as a number, not a value'),
  'tube-difference': entry('doubt', 'the tubes do not hold what they should'),
  'cash-as-card': entry('note', 'the machine books cash sales as card sales'),
  'cash-sales-difference': entry('doubt', 'cash in does not become sales, change and overpayment'),
  'credit-standing': entry('note', 'a customer had credit standing at one of the reads, or may have had'),
  'currency-changed': entry('doubt', 'the currency or its decimals changed between two reads'),
  // settlement
  'no-capture': entry('doubt', 'a bag without a capture'),
  'no-opening': entry('doubt', 'no earlier collection to count from'),
  'two-captures': entry('doubt', 'two captures fit one bag equally well'),
  'two-counts': entry('doubt', 'two bags claim one visit'),
  'joint-bags': entry('doubt', 'two bags settled together on the later visit'),
  'kinds-differ': entry('doubt', 'coins and bills are off in opposite ways'),
  over: entry('doubt', 'more was counted than expected'),
  short: entry('doubt', 'less was counted than expected'),
  uncounted: entry('doubt', 'a service read without a bag'),
  'capture-unusable': entry('doubt', 'the capture of the visit cannot be used'),
  'restart-inside': entry('doubt', 'the counters started again since the last collection'),
  'match-by-date': entry('doubt', 'no capture near the time of the visit; the one of its date was taken'),
  'one-sided': entry('doubt', 'bags of one machine or driver always differ in one direction'),
  'round-adjusted': entry('doubt', 'a closed round came out otherwise by what became known later'),
  'mixed-currency': entry('doubt', 'currencies that are never added together'),
  // accounts
  'deposit-sum': entry('doubt', 'a deposit whose gross less fees is not its net'),
  'deposit-differs': entry('doubt', 'a deposit is not what was sold by card'),
  'deposit-missing': entry('doubt', 'card sales without a deposit'),
  'deposit-extra': entry('doubt', 'a deposit without card sales or without a machine'),
  'deposit-unclear': entry('doubt', 'whether a deposit fits the card sales cannot be told'),
  'sales-not-known': entry('doubt', 'sales that a statement needs are not known'),
  'sales-floor': entry('doubt', 'sales that a statement rests on are the least they can have been'),
  'read-before-end': entry('doubt', 'a machine was last read before the period of its statement ended'),
  'rate-missing': entry('doubt', 'a commission or tax rate, or what it is taken of, is not stated'),
  // a day's run
  'not-read-today': entry('doubt', 'a machine of the roster gave no capture that day'),
  'sold-out': entry('doubt', 'a column is sold out'),
  'sales-stopped': entry('doubt', 'a machine that used to sell sells nothing'),
  // sheets of the office
  'sheet-unreadable': entry('fault', 'a sheet that cannot be read as one'),
  'sheet-column-missing': entry('fault', 'a sheet without a column it must have'),
  'sheet-column-repeated': entry('fault', 'a sheet that names one column twice'),
  'sheet-empty': entry('doubt', 'a sheet without rows'),
  'sheet-column-unknown': entry('note', 'a sheet column that has no meaning here'),
  'bad-row': entry('doubt', 'a row that could not be used'),
  'correction-refused': entry('fault', 'a correction that nothing in the book fits'),
  'bad-cell': entry('doubt', 'a cell that could not be understood'),
  'ambiguous-date': entry('doubt', 'a date that can be read in two ways'),
  'ambiguous-number': entry('doubt', 'a number that can be read in two ways'),
  'duplicate-row': entry('doubt', 'a row that names what another row named already'),
  'sheet-format': entry('note', 'how separators, decimal marks and text coding were taken'),
  'profile-invalid': entry('fault', 'a machine profile that cannot be used'),
  'unknown-profile': entry('doubt', 'the roster names a profile that is not there'),
  // the program itself
  'check-crashed': entry('fault', 'a defect of this program in one of its checks'),
} as const satisfies Record<string, CodeEntry>;

/** The name of a kind of finding. */
export type FindingCode = keyof typeof FINDING_CODES;
