import { printable } from '../../findings/index.js';

/** So many characters of a text from a capture or a sheet are shown where nothing else is said. */
export const LONGEST_SHOWN = 120;
/** The same for sentences. */
export const LONGEST_SENTENCE = 1200;

/**
 * A name or another text from outside: what hides is made visible, what is long is cut, and its reading direction ends
 * with it. (That it is no HTML is seen to by what renders the components.)
 */
export function Shown({ text, max = LONGEST_SHOWN }: { readonly text: string; readonly max?: number }) {
  return <bdi>{printable(text, max)}</bdi>;
}
