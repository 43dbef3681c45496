import {
  ELEMENTS_TABLE,
  type ElementRow,
  type ExplainedSegment,
  elementRows,
  explainedToJson,
  explainFile,
  type Finding,
  layExplained,
  layFindings,
  layUnconfirmed,
  printable,
  type Style,
  walkFiles,
} from '../index.js';
import { pushAll } from '../model/index.js';
import { StatusKeeper, UsageError } from './exit-status.js';
import { runFigure } from './figure-command.js';
import { circumstancesOf, formatOf, loadOfficeFiles, refuseTwoInputs, workplaceOf } from './inputs.js';
import { defaultMoney } from './money-options.js';
import { explainShape, readOptions } from './option-shapes.js';
import { csvView, Printer, type TextReport, type View } from './printer.js';
import { Progress } from './progress.js';
import type { Terminal } from './terminal.js';

interface FileSegment {
  readonly file: string;
  readonly segment: ExplainedSegment;
}

const VIEW: View<FileSegment> = {
  toJson: ({ file, segment }) => explainedToJson(file, segment),
  csv: csvView<FileSegment, ElementRow>(ELEMENTS_TABLE, ({ file, segment }) => elementRows(file, segment)),
  text: textReport,
};

/** Segments are printed as they come, each file under its name. */
function textReport(style: Style): TextReport<FileSegment> {
  let last: string | null = null;
  const unconfirmed = new Set<string>();
  return {
    add({ file, segment }) {
      for (const { name, text, isUnconfirmed } of segment.elements)
        if (isUnconfirmed && /\d/.test(text)) unconfirmed.add(name);
      const heading = file === last ? [] : [...(last === null ? [] : ['']), style.bold(printable(file, 400)), ''];
      last = file;
      return [...heading, ...layExplained(segment, style)];
    },
    lay: (general) => [
      ...(unconfirmed.size === 0 ? [] : ['', ...layUnconfirmed(unconfirmed)]),
      ...(general.length === 0 ? [] : ['', ...layFindings(general, style)]),
    ],
  };
}

/** `explain`: a capture in words, or the arithmetic behind a figure. */
export async function runExplain(
  names: readonly string[],
  raw: Record<string, unknown>,
  terminal: Terminal,
): Promise<number> {
  const options = readOptions(explainShape, raw);
  if (options.figure !== undefined) return runFigure(options.figure, names, options, terminal);
  const format = formatOf(options);
  refuseTwoInputs([...names, options.machines, options.plan, options.capturesList]);
  if (options.counts !== undefined) throw new UsageError('--counts needs --figure: it says which figure to explain');
  const office = await loadOfficeFiles(options, terminal);
  const progress = new Progress(terminal);
  const general: Finding[] = [...office.findings];
  const circumstances = { ...circumstancesOf(options, office, progress), defaults: defaultMoney(options) };
  const workplace = workplaceOf(terminal);
  const printer = new Printer(VIEW, { format, general, terminal, progress });
  for await (const { file, problem } of walkFiles(names, workplace, office.sheetPaths)) {
    progress.step();
    if (problem !== null) {
      general.push(problem);
      continue;
    }
    const segments = explainFile(file, circumstances, workplace);
    for (let next = await segments.next(); ; next = await segments.next()) {
      if (next.done) {
        pushAll(general, next.value);
        break;
      }
      await printer.add({ file, segment: next.value });
    }
  }
  await printer.end();
  const status = new StatusKeeper(options.strict);
  status.add(general);
  return status.status;
}
