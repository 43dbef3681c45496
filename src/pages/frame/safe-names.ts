const LONGEST_SLUG = 40;

/**
 * A text as part of a file name that every file system takes: small letters, digits and single hyphens; never empty,
 * never a path. Different texts can give the same slug.
 *
 * @example slugOf('../Café  No. 5') // 'caf-no-5'
 */
export function slugOf(text: string): string {
  const slug = text
    .slice(0, 4 * LONGEST_SLUG)
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, LONGEST_SLUG)
    .replace(/^-+|-+$/g, '');
  return slug === '' ? 'unnamed' : slug;
}

/** Gives out names that are all different: a slug, with a number behind it when it is taken. */
export class SafeNames {
  readonly #names = new Map<string, string>();
  readonly #taken = new Set<string>();
  readonly #lastNumber = new Map<string, number>();
  readonly #prefix: string;

  /** @param prefix - what all names begin with, such as `machine-` */
  constructor(prefix: string) {
    this.#prefix = prefix;
  }

  /** The name for a text: always the same one for the same text. */
  of(text: string): string {
    const name = this.#names.get(text) ?? this.fresh(text);
    this.#names.set(text, name);
    return name;
  }

  /** A name that was not given out before, made from a text that need not be new. */
  fresh(text: string): string {
    const slug = slugOf(text);
    let number = this.#lastNumber.get(slug) ?? 0;
    let name: string;
    do {
      number++;
      name = this.#prefix + (number === 1 ? slug : `${slug}-${number}`);
    } while (this.#taken.has(name));
    this.#lastNumber.set(slug, number);
    this.#taken.add(name);
    return name;
  }
}
