import type { VNode } from 'preact';
import type { CautionName } from '../../findings/index.js';
import {
  byteLength,
  Cautions,
  DAY_PAGE,
  Page,
  type PageFile,
  type PageLimits,
  Parts,
  pageOut,
  renderPage,
  renderPart,
  type Site,
} from '../frame/index.js';

/** A list of the day's page: as much of it as fits stands there, the rest on pages of its own. */
export interface PartedList<Item> {
  /** Its id on the day's page, and the beginning of its parts' file names: small letters and hyphens. */
  readonly id: string;
  readonly title: string;
  readonly items: readonly Item[];
  /** One item as it is measured. */
  readonly showOne: (item: Item) => VNode;
  /** Some items as they are shown; `start` is the place of the first in the whole list, `caption` says which they are. */
  readonly show: (items: readonly Item[], start: number, caption: string) => VNode;
  /** Cautions that go with items. */
  readonly cautionsOf?: (items: readonly Item[]) => readonly CautionName[];
  /** How much of it stands on the day's page. */
  readonly first: PageLimits;
}

/** A list in parts: what stands on the day's page, and the pages that hold the rest. */
export interface Parted<Item> {
  readonly first: VNode;
  readonly firstItems: readonly Item[];
  readonly files: readonly PageFile[];
}

/** Bytes of a list on a page of its own; what is left of a page is for the frame and the cautions. */
const MOST_BYTES = 400_000;

/** Put as much of a list on the day's page as fits there, and the rest on others. */
export function partList<Item>(list: PartedList<Item>, site: Site): Parted<Item> {
  const { id, title, items, showOne, show, cautionsOf = () => [], first } = list;
  const pages = pageOut(items, (item) => byteLength(renderPart(showOne(item))), first, { bytes: MOST_BYTES });
  const hrefs = pages.map((_, place) => (place === 0 ? `${DAY_PAGE}#${id}` : nameOf(id, place)));
  let start = 0;
  const parts = pages.map((own, place) => {
    const caption = pages.length === 1 ? title : `${title}, ${start + 1} to ${start + own.length} of ${items.length}`;
    const part = (
      <>
        {show(own, start, caption)}
        <Parts of={title} hrefs={hrefs} here={place} />
      </>
    );
    start += own.length;
    return part;
  });
  const files = pages.slice(1).map((own, place) => {
    const name = nameOf(id, place + 1);
    const page = (
      <Page title={`${title}, part ${place + 2} of ${pages.length}`} site={site} here={name}>
        {parts[place + 1]}
        <Cautions cautions={cautionsOf(own)} />
      </Page>
    );
    return { name, text: renderPage(page) };
  });
  return { first: parts[0]!, firstItems: pages[0]!, files };
}

const nameOf = (id: string, place: number): string => `${id}-${place + 1}.html`;
