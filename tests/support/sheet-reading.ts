import type { Finding } from '../../src/findings/index.js';
import type { NumberMarks } from '../../src/sheets/amount-shape.js';
import type { CellContext } from '../../src/sheets/cell-reading.js';
import type { MoneyRules } from '../../src/sheets/index.js';

/** Every machine keeps its money in one currency. */
export function moneyIn(currency: string | null, decimals: number | null): MoneyRules {
  return { currencyOf: () => currency, decimalsOf: () => decimals, defaultDecimals: null };
}

/** Rules for machines in euro. */
export const EURO = moneyIn('EUR', 2);

/** No amount of a sheet has proved anything about its marks. */
export function noMarks(): NumberMarks {
  return { decimal: new Set(), grouping: new Set() };
}

/** A cell in a comma-separated sheet, of a machine with money in euro, unless said otherwise. */
export function cellContext(overrides: Partial<CellContext> = {}): CellContext {
  return {
    machine: 'M1',
    decimals: 2,
    currency: 'EUR',
    marks: noMarks(),
    separator: ',',
    taken: new Set(),
    ...overrides,
  };
}

/** Findings as short lines: code, row and column. */
export function outline(findings: readonly Finding[]): string[] {
  return findings.map(({ code, row, field }) => [code, row, field].filter((part) => part !== undefined).join(' '));
}
