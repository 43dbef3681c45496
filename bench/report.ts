import { cpus } from 'node:os';

/** A Markdown table. */
export function writeTable(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const all = [heads, ...rows];
  const widths = heads.map((_, column) => all.reduce((most, row) => Math.max(most, row[column]!.length), 0));
  const writeRow = (row: readonly string[]): string =>
    `| ${row.map((cell, column) => (column === 0 ? cell.padEnd(widths[column]!) : cell.padStart(widths[column]!))).join(' | ')} |`;
  const rule = `| ${widths.map((width, column) => '-'.repeat(width - 1) + (column === 0 ? '-' : ':')).join(' | ')} |`;
  return [writeRow(heads), rule, ...rows.map(writeRow)].join('\n');
}

/** The machine that was measured on, without its name. */
export function describeMachine(): string {
  const [cpu, ...more] = cpus();
  return `${cpu?.model.trim() ?? 'unknown processor'}, ${more.length + 1} cores, Node ${process.version}`;
}
