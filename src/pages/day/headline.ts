import type { Day } from '../../day/index.js';
import { plural } from '../../report/text/words.js';

/** The day in a sentence: how many machines were read, and how much there is to look at. */
export function writeHeadline({ machines: { expected, read, unknown }, attention }: Day): string {
  const others = unknown === 0 ? '' : `, and ${plural(unknown, 'machine')} that no roster has`;
  const things = attention.length === 0 ? 'Nothing' : plural(attention.length, 'thing');
  return `${read} of ${plural(expected, 'machine')} read${others}. ${things} to look at.`;
}
