import { UsageError } from './exit-status.js';

/**
 * Refuse a stretch of days that ends before it begins, so that nobody takes an empty answer for a good one.
 *
 * @throws UsageError that names both options
 */
export function refuseBackward(
  from: string | undefined,
  to: string | undefined,
  flags: readonly [string, string],
): void {
  if (from === undefined || to === undefined || from <= to) return;
  throw new UsageError(`${flags[0]} ${from} is after ${flags[1]} ${to}`);
}

/** The days asked for; what was not given is left out. */
export function periodOf({ from, to }: { readonly from?: string | undefined; readonly to?: string | undefined }) {
  refuseBackward(from, to, ['--from', '--to']);
  return { ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }) };
}
