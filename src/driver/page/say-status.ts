import { printable } from '../../findings/index.js';
import type { PageState } from './state.js';
import { countWords } from './words.js';

/** What a screen reader is told when it changes: progress in tenths only, then the answer. */
export function sayStatus(state: PageState): string {
  const { phase, lines, total, counts, shown, sheets } = state;
  switch (phase) {
    case 'empty':
    case 'failed':
      return '';
    case 'sorting':
      return 'Looking at the files.';
    case 'checking':
      return total === 0 ? '' : `Checking: ${Math.floor((lines.length * 10) / total) * 10} percent.`;
    case 'stopped':
      return `Stopped. ${countWords(counts)}`;
    case 'done': {
      if (total === 0) return saySheets(sheets);
      const line = lines[shown ?? 0];
      if ((shown !== null || total === 1) && line !== undefined) return printable(line.headline, 600);
      return countWords(counts);
    }
  }
}

function saySheets(sheets: PageState['sheets']): string {
  if (sheets.length === 0) return '';
  return sheets.some(({ kind }) => kind !== null)
    ? 'The sheets are ready. Now choose captures.'
    : 'Nothing here is a capture, or a sheet that helps to check one.';
}
