import { ELEMENT } from '../dictionary/index.js';
import { parseMachineDate, parseMachineTime, type Read } from '../read/index.js';

/** Date of initialisation (EA4), with the time where one is given; null when there is no date. */
export function initialisation(read: Read): string | null {
  const date = parseMachineDate(read.text(ELEMENT.EA401) ?? '');
  return date === null ? null : `${date} ${parseMachineTime(read.text(ELEMENT.EA402) ?? '') ?? ''}`;
}
