import type { ElementName } from '../dictionary/index.js';
import { ELEMENT } from '../dictionary/index.js';
import type { FindingDetail, Place } from '../findings/index.js';
import type { ReadPair } from './read-pair.js';
import { placeIn, type TakenRead } from './taken-read.js';

/** Where an element stands in both reads of a pair: the later one is the finding's place, the earlier one related. */
export function baseDetail(pair: ReadPair, element: ElementName, column: string | null = null): FindingDetail {
  return { ...placeOf(pair.to, element, column), related: [placeOf(pair.from, element, column)] };
}

function placeOf(taken: TakenRead, element: ElementName, column: string | null): Place {
  const { read } = taken;
  const found = column === null ? null : read.column(column);
  const place = placeIn(taken, found === null ? read.place(ELEMENT[element]) : found.place(element));
  return column === null ? place : { ...place, column };
}
