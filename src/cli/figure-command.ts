import type { z } from 'zod';
import {
  buildIntervals,
  cautionsOf,
  describeInterval,
  describeSettlement,
  type FigureSource,
  type FigureTrace,
  type Finding,
  figureToJson,
  layCautions,
  layFindings,
  layTrace,
  listFigureIds,
  type Style,
  traceFigure,
} from '../index.js';
import { StatusKeeper, UsageError } from './exit-status.js';
import { formatOf, loadOfficeFiles, refuseTwoInputs, takeCaptures } from './inputs.js';
import { isOfMachine } from './interval-command.js';
import type { explainShape } from './option-shapes.js';
import { Printer, type TextReport, type View } from './printer.js';
import { Progress } from './progress.js';
import { settleFromFiles } from './settle-files.js';
import type { Terminal } from './terminal.js';

type ExplainOptions = z.infer<typeof explainShape>;

interface TracedFigure {
  readonly of: string;
  readonly trace: FigureTrace;
}

const VIEW: View<TracedFigure> = {
  toJson: ({ of, trace }) => figureToJson(trace, of),
  csv: null,
  text: textReport,
};

function textReport(style: Style): TextReport<TracedFigure> {
  let isFirst = true;
  return {
    add({ of, trace }) {
      const gap = isFirst ? [] : [''];
      isFirst = false;
      const [answer, ...rest] = layTrace(trace, style);
      return [...gap, answer!, style.dim(of), ...rest];
    },
    lay: (general) =>
      general.length === 0 ? [] : ['', ...layFindings(general, style), ...layCautions(cautionsOf(general), style)],
  };
}

/** `explain --figure`: the arithmetic behind a figure, in every interval or round that has it. */
export async function runFigure(
  id: string,
  names: readonly string[],
  options: ExplainOptions,
  terminal: Terminal,
): Promise<number> {
  const format = formatOf(options);
  if (format === 'csv') throw new UsageError('--figure has no table; use --json');
  const progress = new Progress(terminal);
  const { sources, general } = await findSources(names, options, terminal, progress);
  const traced = sources.flatMap(({ of, source }) => {
    const trace = traceFigure(source, id);
    return trace === null ? [] : [{ of, trace }];
  });
  if (traced.length === 0 && sources.length > 0) throw unknownFigure(id, sources);
  const printer = new Printer(VIEW, { format, general, terminal, progress });
  for (const figure of traced) await printer.add(figure);
  await printer.end();
  const status = new StatusKeeper(options.strict);
  status.add(general);
  return status.status;
}

interface NamedSource {
  readonly of: string;
  readonly source: FigureSource;
}

/** The rounds, where counts are given, else the intervals. */
async function findSources(
  names: readonly string[],
  options: ExplainOptions,
  terminal: Terminal,
  progress: Progress,
): Promise<{ sources: readonly NamedSource[]; general: readonly Finding[] }> {
  const { counts } = options;
  if (counts !== undefined) {
    const { settlements, findings: general } = await settleFromFiles(
      names,
      { ...options, counts },
      { terminal, progress },
    );
    return { sources: settlements.map((source) => ({ of: describeSettlement(source), source })), general };
  }
  refuseTwoInputs([...names, options.machines, options.plan, options.capturesList]);
  const office = await loadOfficeFiles(options, terminal);
  const taken = await takeCaptures(names, options, office, { terminal, progress, skip: office.sheetPaths });
  const { intervals, findings } = buildIntervals(taken.reads, office.roster);
  const shown = intervals.filter((interval) => isOfMachine(interval, options.only));
  return {
    sources: shown.map((source) => ({ of: describeInterval(source), source })),
    general: [...office.findings, ...taken.findings, ...findings],
  };
}

/** Says which figures there are; those of columns and visits are told once, beside the names that can stand in them. */
function unknownFigure(id: string, sources: readonly NamedSource[]): UsageError {
  const visits = new Set<string>();
  const columns = new Set<string>();
  const ids = new Set<string>();
  for (const one of sources.flatMap(({ source }) => listFigureIds(source))) {
    const folded = one
      .replace(VISIT, (_, visit: string, rest: string) => `visits.${keep(visits, visit, 'VISIT')}.${rest}`)
      .replace(COLUMN, (_, before: string, column: string, figure: string) => {
        return `${before}columns.${keep(columns, column, 'COLUMN')}.${figure}`;
      });
    ids.add(folded);
  }
  const names = [
    visits.size === 0 ? '' : `VISIT is one of ${[...visits].join(', ')}.`,
    columns.size === 0 ? '' : `COLUMN is one of ${[...columns].join(', ')}.`,
  ].filter((line) => line !== '');
  return new UsageError([`--figure: there is no figure "${id}"; there are:`, ...ids, ...names].join('\n'));
}

const VISIT = /^visits\.(.*)\.((?:expected|counted|overShort|totals|cash)\.\w+|columns\..*)$/;
const COLUMN = /^(.*\b|)columns\.(.*)\.(\w+)$/;

function keep(names: Set<string>, name: string, placeholder: string): string {
  names.add(name);
  return placeholder;
}
