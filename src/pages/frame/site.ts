import type { LocalDate } from '../../model/index.js';
import { MachinePageNames } from './machine-page-names.js';

/** A file to be written into the folder of the pages. */
export interface PageFile {
  /** Its name there: letters, digits, hyphens, dots. */
  readonly name: string;
  readonly text: string;
}

/** A link to another page of the folder. */
export interface NavLink {
  /** Relative, such as `index.html#routes`. */
  readonly href: string;
  readonly text: string;
}

/** What a book held: the number of its entries, and the root of their tree in hex. */
export interface ShownHead {
  readonly size: number;
  readonly root: string;
}

/** What all pages of one folder share. */
export interface Site {
  readonly day: LocalDate;
  /** The book that the pages were made from, as it stood then; null where there was none. */
  readonly book: ShownHead | null;
  readonly nav: readonly NavLink[];
  /** Names of the machines' pages: the same machine gets the same name wherever it is asked for. */
  readonly machinePages: MachinePageNames;
}

/** What a site is made from. */
export interface SiteGiven {
  readonly day: LocalDate;
  readonly book?: ShownHead | null;
  /** Links beside those to the parts of the day, such as to the trend. */
  readonly moreNav?: readonly NavLink[];
}

/** The day's page, which opens first. */
export const DAY_PAGE = 'index.html';

const DAY_PARTS: readonly NavLink[] = [
  { href: DAY_PAGE, text: 'Day' },
  { href: `${DAY_PAGE}#attention`, text: 'To look at' },
  { href: `${DAY_PAGE}#routes`, text: 'Routes' },
  { href: `${DAY_PAGE}#machines`, text: 'Machines' },
  { href: `${DAY_PAGE}#files`, text: 'What came in' },
];

/** Begin the pages of a day. */
export function makeSite({ day, book = null, moreNav = [] }: SiteGiven): Site {
  return { day, book, nav: [...DAY_PARTS, ...moreNav], machinePages: new MachinePageNames() };
}
