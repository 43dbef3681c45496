// A list of unknown length is never spread into the arguments of a call: each argument takes room on the stack, and a capture
// with 130,000 columns ends the run. These take the list itself. `spread-into-call.grit` refuses such spreads.

/** Add the items of one list to the end of another. */
export function pushAll<Item>(list: Item[], items: Iterable<Item>): void {
  for (const item of items) list.push(item);
}

/** The largest of some numbers, and at least `floor`: -Infinity where there are none and none is given. */
export function largestOf(values: Iterable<number>, floor: number = Number.NEGATIVE_INFINITY): number {
  let largest = floor;
  for (const value of values) largest = Math.max(largest, value);
  return largest;
}

/** The smallest of some numbers: Infinity where there are none. */
export function smallestOf(values: Iterable<number>): number {
  let smallest = Number.POSITIVE_INFINITY;
  for (const value of values) smallest = Math.min(smallest, value);
  return smallest;
}
