import { type ExplainedElement, type ExplainedSegment, nameElements } from '../../explain/index.js';
import { printable } from '../../findings/index.js';
import type { Style } from './style.js';
import { padText, textWidth } from './text-width.js';
import { hangText } from './wrap-text.js';

const NAME_WIDTH = 8;
const TEXT_WIDTH = 16;
const LONGEST = 300;

/** A segment in words for a person: a heading, then its elements one below the other. */
export function layExplained(segment: ExplainedSegment, style: Style): string[] {
  const { id, title, line, column, remark, elements } = segment;
  const about = [title ?? 'not in the dictionary', column === null ? null : `column ${column}`, remark]
    .filter((part) => part !== null)
    .join('; ');
  const heading = hangText(`${padText(`line ${line}`, 10)} `, printable(`${id}  ${about}`, LONGEST));
  return [...heading.map(style.bold), ...elements.flatMap(layElement)];
}

/**
 * What no check of digits can see in a capture that was shown, and what the integrity value is not; nothing where all is confirmed.
 *
 * @param names - elements with digits that nothing confirms
 */
export function layUnconfirmed(names: ReadonlySet<string>): string[] {
  if (names.size === 0) return [];
  const which = nameElements(names).join(', ');
  return [
    ...hangText('', `Nothing else in a capture confirms ${which}: a digit changed there goes unnoticed.`),
    ...hangText(
      '',
      'G85 shows damage on the way. It is no signature: anybody who changes a capture can make it fit again.',
    ),
  ];
}

function layElement({ name, text, meaning, words, isByProfile }: ExplainedElement): string[] {
  const shown = text === '' ? '(empty)' : printable(text, LONGEST);
  const says = [words, meaning === null ? null : `${meaning}${isByProfile ? ' (by the profile)' : ''}`]
    .filter((part) => part !== null)
    .join(': ');
  const label = `  ${padText(printable(name, 20), NAME_WIDTH)}  ${padText(shown, TEXT_WIDTH)}  `;
  // A text too long to stand beside its meaning stands above it.
  if (textWidth(label) > NAME_WIDTH + TEXT_WIDTH + 6) {
    const indent = ' '.repeat(NAME_WIDTH + 4);
    return [
      ...hangText(`  ${padText(printable(name, 20), NAME_WIDTH)}  `, shown),
      ...(says === '' ? [] : hangText(indent, printable(says, LONGEST))),
    ];
  }
  return hangText(label, printable(says, LONGEST)).map((line) => line.trimEnd());
}
