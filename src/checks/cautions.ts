/**
 * What is said wherever advice sends someone to a machine or acts on a figure. Common practice of the trade; where local
 * codes, the maker's manual or a site's rules say more, they hold.
 */
export const CAUTIONS = {
  harness: 'Switch off and unplug before connecting or disconnecting any harness.',
  inside:
    "Live mains, moving and hot or cold parts are inside: only trained people, following the maker's manual, local electrical codes and site rules.",
  tilt: 'Never rock or tilt a machine: it can fall and kill.',
  food: "Perishable food after a temperature fault is the food-safety plan's decision, not this program's.",
  overShort:
    'Over or short is a difference between two counts, not proof of wrongdoing: count again with a second person before anyone is asked about it.',
  accounts: "Tax, fiscal and wage consequences follow local law and the operator's accountant.",
} as const;

/** What goes with every piece of advice that sends a hand into a cabinet. */
export const CABINET_CAUTIONS: readonly string[] = [CAUTIONS.harness, CAUTIONS.inside, CAUTIONS.tilt];

/** Advice that sends a hand into a cabinet, with its cautions behind it. */
export function adviseAtCabinet(advice: string, ...more: readonly string[]): string {
  return [advice, ...CABINET_CAUTIONS, ...more].join(' ');
}

/** The first sentence of an advice: the thing to do, without the cautions that may follow. */
export function firstSentence(advice: string): string {
  const end = advice.search(/\.(\s|$)/);
  return end < 0 ? advice : advice.slice(0, end + 1);
}
