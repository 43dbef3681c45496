import type { Day, DayInputs } from '../day/index.js';
import type { PageFile, Site } from './frame/index.js';

/** Some machines of a day, with all that is known of them. */
export interface PagesBatch {
  readonly inputs: DayInputs;
  readonly day: Day;
}

/**
 * Makes the pages of a batch's machines, one after the other, so that no more than one needs to be held.
 *
 * Their names come from `site.machinePages.of`, by what `nameMachine` calls the machine; ids of rows and figures that
 * other pages link to from `columnAnchor` and `cashAnchor`.
 */
export type MachinePagesMaker = (batch: PagesBatch, site: Site) => Iterable<PageFile>;
