import { printable } from '../../findings/index.js';
import type { CheckJson } from '../../report/index.js';
import { timeWords } from '../../report/text/words.js';
import type { CaptureView } from '../desk/messages.js';
import type { PageState } from './state.js';
import { adviceWords, countWords, machineWords, SEVERITY_WORDS } from './words.js';

/** Of one capture so many findings, and of many so many captures, go into a message. */
const MOST_LINES = 30;

/** What is shown, as plain text for a message: the answer first, then what it rests on, and the cautions. */
export function writeShareText(state: PageState): string {
  const isOne = state.view !== null && (state.shown !== null || state.total === 1);
  return isOne ? writeCapture(state.view!) : writeList(state);
}

function writeCapture({ check, cautions }: CaptureView): string {
  const read = check.reads[0];
  const about = read === undefined ? [] : [`Machine: ${machineWords(read.machine)}`, `Clock: ${timeWords(read.clock)}`];
  return joinLines([
    printable(check.headline, 600),
    ...about,
    `File: ${printable(check.file, 200)}`,
    ...limit(check.findings.map(writeFinding)),
    ...(cautions.length === 0 ? [] : ['Cautions:', ...cautions]),
  ]);
}

function writeFinding({ severity, message, advice }: CheckJson['findings'][number]): string {
  const todo = advice === null ? '' : ` Do: ${adviceWords(advice)}`;
  return `${SEVERITY_WORDS[severity]}: ${printable(message, 600)}${todo}`;
}

function writeList({ counts, lines }: PageState): string {
  const worth = [
    ...lines.filter(({ verdict }) => verdict === 'read-again'),
    ...lines.filter(({ verdict }) => verdict === 'doubtful'),
  ];
  const cautions = [...new Set(worth.flatMap((line) => line.cautions))];
  return joinLines([
    countWords(counts),
    ...limit(
      worth.map(({ file, machine, headline }) => {
        const name = machine === null ? '' : `${printable(machine, 60)}, `;
        return `${name}${printable(file, 200)}: ${printable(headline, 300)}`;
      }),
    ),
    ...(cautions.length === 0 ? [] : ['Cautions:', ...cautions]),
  ]);
}

function limit(lines: readonly string[]): readonly string[] {
  const rest = lines.length - MOST_LINES;
  return rest > 0 ? [...lines.slice(0, MOST_LINES), `And ${rest} more.`] : lines;
}

function joinLines(lines: readonly string[]): string {
  return `${lines.join('\n')}\n`;
}
