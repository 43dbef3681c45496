/** An element: text, a number, or nothing. */
export type ElementValue = string | number | null;

/** One segment line. Trailing empty elements are left out, as the standard allows. */
export function writeLine(id: string, ...elements: readonly ElementValue[]): string {
  const texts = elements.map((element) => (element === null ? '' : String(element)));
  while (texts.at(-1) === '') texts.pop();
  return [id, ...texts].join('*');
}
