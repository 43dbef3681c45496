import { ELEMENT, SEGMENT } from '../dictionary/index.js';
import type { Profile } from '../profile/index.js';
import type { Read } from '../read/index.js';

const PA2 = SEGMENT.PA2.index;

/**
 * Whether the machine leaves out segments whose values are zero (manual L0118P-SP, p. 62), judged from one read: some
 * columns have paid-vend counters, others have none, and not one shows a zero.
 *
 * A profile that says so decides. Where the read shows nothing either way the answer is no: absent is not zero.
 */
export function leavesZeroSegmentsOut(read: Read, profile: Profile | null): boolean {
  if (profile?.zeroSegmentsLeftOut !== undefined) return profile.zeroSegmentsLeftOut;
  let withCounters = 0;
  let without = 0;
  for (const column of read.columns) {
    if (column.line(PA2) < 0) without++;
    else if (column.number(ELEMENT.PA201) === 0) return false;
    else withCounters++;
  }
  return withCounters > 0 && without > 0;
}
