import type { Day } from '../../day/index.js';
import { layAttention } from './attention-text.js';
import type { Style } from './style.js';
import { amountCell, plural, unitWords } from './words.js';
import { hangText } from './wrap-text.js';

/** A day for a person: what came in and what was sold, then what has to be looked at. */
export function layDay(day: Day, style: Style): string[] {
  return [
    ...hangText('', headline(day)).map(style.bold),
    ...hangText('  ', filesWords(day)),
    ...totalsWords(day),
    '',
    ...layAttention(day.attention, style),
  ];
}

function headline({ day, machines: { expected, read, unknown } }: Day): string {
  const others = unknown === 0 ? '' : `, and ${plural(unknown, 'machine')} that no roster has`;
  return `${day}: ${read} of ${plural(expected, 'machine')} read${others}.`;
}

function filesWords({ files }: Day): string {
  const { sound, doubtful, readAgain, setAside, duplicates } = files;
  const parts: readonly (readonly [number, string])[] = [
    [sound, 'sound'],
    [doubtful, 'doubtful'],
    [readAgain - setAside, 'to be read again'],
    [setAside, 'set aside'],
  ];
  const shown = parts.filter(([count]) => count > 0).map(([count, words]) => `${count} ${words}`);
  const copies = duplicates === 0 ? '' : `; ${plural(duplicates, 'read')} came more than once and counts once`;
  return `${plural(files.files, 'file')}${shown.length === 0 ? '' : `: ${shown.join(', ')}`}${copies}.`;
}

function totalsWords({ totals }: Day): string[] {
  return totals.flatMap(({ sold, value, openIntervals, ...unit }) => {
    const open = plural(openIntervals, 'interval');
    if (sold === null) return hangText('  ', `What was sold is not known: ${open} without figures.`);
    const more = openIntervals === 0 ? '' : `; what was sold in ${open} more is not known`;
    return hangText('  ', `Sold ${sold} for ${amountCell(value, unit)} ${unitWords(unit)}${more}.`);
  });
}
