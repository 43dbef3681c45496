/**
 * What is said wherever advice sends someone to a machine or acts on a figure: the one table of words. Common practice of the
 * trade; where local codes, the maker's manual or a site's rules say more, they hold.
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

/** The name of a caution of {@link CAUTIONS}. */
export type CautionName = keyof typeof CAUTIONS;

/** What goes with every piece of advice that sends a hand into a cabinet. */
export const CABINET_CAUTIONS: readonly CautionName[] = ['harness', 'inside', 'tilt'];
/** What goes with every difference between money counted and money expected: it is never shown without. */
export const COUNT_CAUTIONS: readonly CautionName[] = ['overShort', 'accounts'];

/** What to do, and the cautions that go with it. */
export interface CautiousAdvice {
  readonly advice: string;
  readonly cautions: readonly CautionName[];
}

/** Advice that sends a hand into a cabinet, with the cautions that go with it. */
export function adviseAtCabinet(advice: string, ...more: readonly CautionName[]): CautiousAdvice {
  return { advice, cautions: [...CABINET_CAUTIONS, ...more] };
}

const ALL = Object.keys(CAUTIONS) as CautionName[];

/** The cautions of findings or of anything else that carries some, each once, in the order in which they are listed everywhere. */
export function cautionsOf(all: Iterable<{ readonly cautions?: readonly CautionName[] }>): CautionName[] {
  const needed = new Set<CautionName>();
  for (const { cautions = [] } of all) for (const name of cautions) needed.add(name);
  return ALL.filter((name) => needed.has(name));
}

/** Cautions in words, each once, in the order in which they are listed everywhere. */
export function sayCautions(names: readonly CautionName[]): string[] {
  return cautionsOf([{ cautions: names }]).map((name) => CAUTIONS[name]);
}

/** The caution that says this; null for words that no caution has now. */
export function findCaution(words: string): CautionName | null {
  return ALL.find((name) => CAUTIONS[name] === words) ?? null;
}
