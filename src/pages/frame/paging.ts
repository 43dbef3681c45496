/** No page is larger, in bytes. */
export const LARGEST_PAGE = 500_000;

const encoder = new TextEncoder();

/** How many bytes a text is in UTF-8. */
export function byteLength(text: string): number {
  return encoder.encode(text).length;
}

/** How much goes on a page. */
export interface PageLimits {
  /** Bytes of the items. */
  readonly bytes: number;
  /** Items; default: as many as fit. */
  readonly items?: number;
}

/**
 * Spread items over pages, in order. An item that is larger than a page has one to itself.
 *
 * @param sizeOf - bytes of an item as it is rendered
 * @param first - limits of the first page, which may have other things on it
 * @param rest - limits of the others
 * @returns one page at least, which may be empty
 */
export function pageOut<Item>(
  items: readonly Item[],
  sizeOf: (item: Item, place: number) => number,
  first: PageLimits,
  rest: PageLimits = first,
): Item[][] {
  const pages: Item[][] = [[]];
  let bytes = 0;
  for (const [place, item] of items.entries()) {
    const { bytes: mostBytes, items: mostItems = Number.POSITIVE_INFINITY } = pages.length === 1 ? first : rest;
    const size = sizeOf(item, place);
    const page = pages.at(-1)!;
    if (page.length > 0 && (bytes + size > mostBytes || page.length >= mostItems)) {
      pages.push([item]);
      bytes = size;
    } else {
      page.push(item);
      bytes += size;
    }
  }
  return pages;
}
