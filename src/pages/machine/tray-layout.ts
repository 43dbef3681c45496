/** Columns that lie side by side. */
export interface Tray {
  /** Its number or letter; null where trays can not be told, and all columns are in one list. */
  readonly name: string | null;
  /** Places of its columns in the list of names, from left to right. */
  readonly places: readonly number[];
}

/** Columns as they lie in the machine, and how that was judged. */
export interface TrayLayout {
  readonly trays: readonly Tray[];
  /** One sentence. */
  readonly how: string;
}

interface Scheme {
  readonly pattern: RegExp;
  readonly words: string;
}

/** How columns are named where their names say which tray they are in (common practice: a capture does not say it). */
const SCHEMES: readonly Scheme[] = [
  { pattern: /^(\d)(\d)$/, words: 'the first of two digits' },
  { pattern: /^(\d)(\d\d)$/, words: 'the first of three digits' },
  { pattern: /^([A-Za-z])-?(\d{1,2})$/, words: 'the letter' },
];

/**
 * Lay columns out as the machine's trays are, by their names: 11, 12, 21 lie on trays 1, 1 and 2.
 *
 * All names have to be of one kind, and no two the same; else nothing is guessed and all are in one list.
 */
export function layOutTrays(names: readonly string[]): TrayLayout {
  const scheme = SCHEMES.find(({ pattern }) => names.every((name) => pattern.test(name)));
  if (names.length === 0 || scheme === undefined || new Set(names).size < names.length) {
    return {
      trays: [{ name: null, places: names.map((_, place) => place) }],
      how: 'The names of the columns do not say on which tray they are, so all are in one list, in the order of the capture.',
    };
  }
  const placed = names.map((name, place) => {
    const [, tray, slot] = scheme.pattern.exec(name)!;
    return { tray: tray!.toUpperCase(), slot: Number(slot), place };
  });
  const trays = [...new Set(placed.map(({ tray }) => tray))].toSorted();
  return {
    trays: trays.map((name) => ({
      name,
      places: placed
        .filter(({ tray }) => tray === name)
        .toSorted((a, b) => a.slot - b.slot)
        .map(({ place }) => place),
    })),
    how: `Trays are judged by ${scheme.words} of the columns’ names; the capture does not say them.`,
  };
}
