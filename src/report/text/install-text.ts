import type { InstallItem } from '../../checks/index.js';
import { cautionsOf, type Finding, printable } from '../../findings/index.js';
import type { Installation } from '../installation.js';
import { layCautions } from './cautions-text.js';
import { layFindings } from './findings-text.js';
import type { Style } from './style.js';
import { hangText } from './wrap-text.js';

const LONGEST = 400;
const STATE_WORDS: Readonly<Record<InstallItem['state'], string>> = {
  missing: 'missing',
  'not-known': 'not known',
  pass: 'pass',
};

/** An install check for a technician: passed or not, then what is missing and what to do, then the rest. */
export function layInstallation(
  { file, second, check }: Installation,
  general: readonly Finding[],
  style: Style,
): string[] {
  const { headline, items } = check;
  const order = Object.keys(STATE_WORDS) as InstallItem['state'][];
  const sorted = order.flatMap((state) => items.filter((item) => item.state === state));
  return [
    ...hangText('', printable(headline, LONGEST)).map(style.bold),
    ...hangText('  ', printable(second === null ? file : `${file}, then ${second}`, LONGEST)).map(style.dim),
    '',
    ...sorted.flatMap((item) => layItem(item, style)),
    ...(general.length === 0 ? [] : ['', ...layFindings(general, style)]),
    ...layCautions(cautionsOf([...items, ...general]), style),
  ];
}

function layItem({ state, what, detail, advice }: InstallItem, style: Style): string[] {
  const label = `  ${STATE_WORDS[state].padEnd(9)}  `;
  // What was looked for says nothing where it was not there.
  const [first, ...rest] = hangText(label, printable(state === 'missing' ? detail : `${what}: ${detail}`, LONGEST));
  const todo = advice === null ? [] : hangText(`${' '.repeat(label.length)}Do: `, printable(advice, LONGEST));
  return [state === 'missing' ? style.bold(label) + first!.slice(label.length) : first!, ...rest, ...todo];
}
